import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { saidBy } from "../cli/said.js";
import { ROOT } from "../sources.js";
import { keepFile } from "./generated.js";

type Data = { readonly [key: string]: unknown };

interface Recipe {
  readonly file: string;
  readonly question: string;
  /** What a teacher types to see it, without the file. */
  readonly command: readonly [command: string, ...rest: string[]];
  /** More to say of it. */
  readonly more?: string;
}

const RECIPES: readonly Recipe[] = [
  { file: "one-beat", question: "How short can a silence be?", command: ["score", "one-beat", "1"] },
  {
    file: "growing",
    question: "How does the silence grow from half a bar to two bars in one track?",
    command: ["score", "growing", "1"],
  },
  {
    file: "drums-then-bass",
    question: "How do first the drums leave, and then the bass?",
    command: ["score", "drums-then-bass", "1"],
  },
  {
    file: "drums-then-bass",
    question: "How do I give them the drums only to play to?",
    command: ["score", "drums-then-bass", "1", "--mix", "drums only"],
    more: "It is a mix of the same drill. In it the bass is off from the first bar on.",
  },
  { file: "rising-tempo", question: "How does the tempo rise inside a take?", command: ["score", "rising", "1"] },
  {
    file: "swing",
    question: "How do I write swing?",
    command: ["score", "swing", "1"],
    more: "The strip shows no swing. You hear it, and a take is measured against it.",
  },
  { file: "seven-eight", question: "How do I write seven-eight?", command: ["score", "seven-eight", "1"] },
  { file: "pick-up", question: "How do I write a pick-up?", command: ["score", "pick-up", "1"] },
  {
    file: "open-blues",
    question: "How do I leave bars open over a minor blues scale?",
    command: ["score", "open-blues", "1"],
  },
  {
    file: "two-saxophones",
    question: "How do two saxophones play from one part?",
    command: ["score", "two-saxophones", "1"],
    more: "`leeway render FILE --as pdf` makes a sheet for each, in its own key and octave.",
  },
  { file: "two-and-four", question: "How do I get a click on two and four?", command: ["score", "two-and-four", "1"] },
  {
    file: "bass-student",
    question: "How do I write for the student who is the bass or the drums?",
    command: ["score", "bass-student", "1"],
  },
  {
    file: "beginners",
    question: "How do I stay within what beginners have learnt?",
    command: ["rungs", "beginners"],
    more: "A note outside a beginner's range is named by `leeway check`.",
  },
  { file: "keys-that-climb", question: "How does the riff go through the keys?", command: ["rungs", "keys"] },
  {
    file: "endless",
    question: "How does the band go round and round to practise with?",
    command: ["score", "endless", "1"],
    more: "The strip is that of a take, which always ends. `leeway render FILE --as wav --loop 4` makes a sound to repeat anywhere.",
  },
  {
    file: "sequential-gate",
    question: "How does a gate open only when enough was shown?",
    command: ["gate", "judged"],
  },
  {
    file: "six-steps",
    question: "How does one drill grow, step by step?",
    command: ["score", "step-6", "1"],
    more: "The [guide](../README.md#one-drill-in-six-steps) takes it step by step.",
  },
];

const names = readdirSync(join(ROOT, "curricula", "recipes"))
  .filter((file) => file.endsWith(".yaml"))
  .map((file) => file.replace(".yaml", ""));
const pathOf = (name: string): string => `curricula/recipes/${name}.yaml`;
const textOf = (name: string): string => readFileSync(join(ROOT, pathOf(name)), "utf8");

/** The keys and the words of a course that say what it asks for, riffs and numbers apart. */
function features(name: string): readonly string[] {
  const { patterns, drills, players = [] } = parse(textOf(name)) as Record<string, Data>;
  const shown: string[] = [];
  const look = (value: unknown, path: string): void => {
    if (Array.isArray(value)) for (const each of value) look(each, path);
    else if (value !== null && typeof value === "object")
      for (const [key, inside] of Object.entries(value)) look(inside, `${path}.${key}`);
    else shown.push(/length|student|meter|phrases|swing/.test(path) ? `${path}=${value}` : path);
  };
  for (const drill of Object.values(drills!)) look(drill, "drill");
  for (const { parts, ...pattern } of Object.values(patterns!) as Data[]) {
    look(pattern, "pattern");
    for (const [part, says] of Object.entries(parts as Record<string, Data>))
      for (const key of Object.keys(says)) shown.push(`${part}.${key === "voices" ? "" : key}`);
  }
  look(players, "player");
  return [...new Set(shown)].filter((each) => !/title|about|chords|key$|tolerance/.test(each)).sort();
}

describe("the recipes", () => {
  test("are fifteen, and the course of the guide", () => {
    expect(names.length).toBe(16);
    expect([...new Set(RECIPES.map(({ file }) => file))].sort()).toEqual(names);
  });

  test.each(names)("%s has no problems and no advice, and is found under its own name", (name) => {
    const result = readCurriculum(textOf(name), { file: pathOf(name), readFile: () => undefined });
    expect(result).toMatchObject({ ok: true, advice: [] });
    expect(textOf(name).split("\n").length).toBeLessThanOrEqual(name === "six-steps" ? 110 : 60);
  });

  test.each(names.filter((name) => name !== "six-steps"))(
    "%s has one drill, and a comment on its one thing",
    (name) => {
      expect(textOf(name).match(/# The one thing: /g)?.length).toBe(1);
      expect(Object.keys((parse(textOf(name)) as Record<string, Data>).drills!).length).toBe(1);
    },
  );

  test("are different from each other in what they ask for, and have riffs of their own", () => {
    const seen = new Map<string, string>();
    for (const name of names) {
      const key = features(name).join(" ");
      expect(seen.get(key), `${name} and ${seen.get(key)}`).toBeUndefined();
      seen.set(key, name);
    }
    const riffs = names.flatMap((name) =>
      Object.values((parse(textOf(name)) as Record<string, Data>).patterns!).map(
        (pattern) => (pattern as { parts: { lead: { notes: string } } }).parts.lead.notes,
      ),
    );
    expect(new Set(riffs).size).toBe(riffs.length);
  });

  test("are on their page with what a teacher is shown", async () => {
    const parts = RECIPES.map(async ({ file, question, command: [verb, ...rest], more }) => {
      const { status, out, err } = await saidBy([verb, join(ROOT, pathOf(file)), ...rest]);
      expect(status, err).toBe(0);
      const words = rest.map((word) => (word.includes(" ") ? `"${word}"` : word)).join(" ");
      const typed = `leeway ${verb} ${file}.yaml ${words}`;
      return [
        `## ${question}`,
        `[${file}.yaml](${file}.yaml)${more === undefined ? "" : `. ${more}`}`,
        `\`\`\`sh\n${typed}\n\`\`\``,
        `\`\`\`text\n${out}\`\`\``,
      ].join("\n\n");
    });
    const head = [
      "# Recipes",
      "Small courses, each with one thing that teachers ask for. Look for your question, open the file, and copy what you need.",
      "The line that does it follows the comment `The one thing`. Every course here is checked, and the pictures are what leeway prints.\nIn the folder of leeway put `curricula/recipes/` before the name of the file. [The guide](../README.md) explains all keys.",
    ].join("\n\n");
    keepFile("curricula/recipes/README.md", `${[head, ...(await Promise.all(parts))].join("\n\n")}\n`);
  });
});
