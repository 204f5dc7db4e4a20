import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse, stringify } from "yaml";
import { problemsIn, toNumber } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { type Note, pitchText } from "../../lib/pattern/index.js";
import { saidBy } from "../cli/said.js";
import { ROOT } from "../sources.js";
import { COURSE_KEYS, type CourseKey, keysUsedIn, keyTables, PLACES, placesWithKeys, written } from "./courseKeys.js";
import { keepFile, keepPart } from "./generated.js";
import { DRUM_LINE, NOTE_LINE, SWALLOWED, type Written } from "./guideLines.js";
import { AROUND, AROUND_ALL, AT, type Draft, draft, FILES } from "./keyExamples.js";

const GUIDE = "curricula/README.md";
const RECIPES = join(ROOT, "curricula", "recipes");

const nameOf = ({ place, name }: CourseKey): string => `${place}.${name}`;

/** A course in which a key has a value, and the JSON pointer of the key. */
function courseWith(key: CourseKey, value: unknown): { readonly course: Draft; readonly pointer: string } {
  const course = draft();
  const { path, with: beside } = AT[key.place]!;
  AROUND_ALL[key.place]?.(course, undefined);
  let place = course;
  for (const [i, step] of path.entries()) {
    place[step] ??= typeof path[i + 1] === "number" ? [] : {};
    if (i === path.length - 1 && beside !== undefined) place[step] = structuredClone(beside);
    place = place[step];
  }
  AROUND[nameOf(key)]?.(course, place);
  place[key.name] = value;
  return { course, pointer: `/${[...path, key.name].join("/")}` };
}

const problemsOf = (course: Draft) => problemsIn(readCurriculum(JSON.stringify(course), FILES));

/** Keys that take any text, but no keys of their own. */
const FREE = new Set([
  ...[".title", ".author", ".arranger", ".copyright", ".licence", ".logo", ".about"],
  ...["pattern.title", "pattern.author", "pattern.arranger", "drill.title", "drill.about", "drill.formerly"],
]);

describe("the keys of a course", () => {
  test("all stand in a place that the guide names", () => {
    expect(Object.keys(PLACES).sort()).toEqual([...placesWithKeys].sort());
    expect(COURSE_KEYS.filter(({ examples }) => examples.length === 0).map(nameOf)).toEqual([]);
  });

  test.each(COURSE_KEYS.map((key) => [nameOf(key), key] as const))("%s: its example is read", (_name, key) => {
    // As a teacher copies it from the page, in a course of block style.
    const text = stringify(courseWith(key, "HERE").course, { lineWidth: 0 }).replace("HERE", () =>
      written(key.examples[0]),
    );
    expect(problemsIn(readCurriculum(text, FILES))).toEqual([]);
  });

  const others = COURSE_KEYS.flatMap((key) => key.examples.slice(1).map((value) => [nameOf(key), value, key] as const));
  test.each(others)("%s: the form of %j is read", (_name, value, key) => {
    // The course is made for the first example: what does not fit into it otherwise, such as bars of another length, is no matter here.
    const form = /NOT_READ$|_FORM$|_TYPE$|^NOT_ONE_OF|^UNKNOWN_KEY|OUT_OF_RANGE$|NOT_TEXT$/;
    expect(problemsOf(courseWith(key, value).course).filter((problem) => form.test(problem.code))).toEqual([]);
  });

  test.each(COURSE_KEYS.map((key) => [nameOf(key), key] as const))("%s: nonsense is named", (name, key) => {
    const { course, pointer } = courseWith(key, FREE.has(name) ? {} : "?!");
    expect(problemsOf(course).filter(({ where }) => `${where.pointer}/`.startsWith(`${pointer}/`))).not.toEqual([]);
  });

  test("are all on the page, place by place, with the recipes in which they are at work", () => {
    const users = new Map<string, string[]>();
    for (const file of readdirSync(RECIPES).filter((name) => name.endsWith(".yaml")))
      for (const key of keysUsedIn(parse(readFileSync(join(RECIPES, file), "utf8"))))
        users.set(key, [...(users.get(key) ?? []), file.replace(".yaml", "")]);
    // A key that many recipes have needs no example among them.
    const seen = (key: CourseKey): string => {
      const in_ = users.get(nameOf(key)) ?? [];
      const links = in_.map((name) => `[${name}](recipes/${name}.yaml)`);
      return links.length === 0 || links.length > 3 ? "" : ` *Seen in* ${links.join(", ")}.`;
    };
    keepPart(GUIDE, "keys", keyTables(seen));
  });
});

/** A course with one line in it, and the notes that are read from the line. */
function notesIn(part: "lead" | "kit", line: string): string {
  const course = draft();
  const { parts } = course.patterns.dockside;
  parts.lead = { notes: part === "lead" ? line : "1/4 D4 F4 G4 A4 | ..." };
  if (part === "kit") parts.kit = { voices: { hat: line } };
  for (const drill of Object.values(course.drills) as Draft[]) {
    delete drill.variant;
    delete drill.dropout;
    drill.tolerance = { steadiness: "60 ms" };
  }
  const read = readCurriculum(JSON.stringify(course), FILES);
  if (!read.ok) return read.problems.map(({ message }) => message).join("; ");
  const notes: readonly Note[] = read.value.patterns.dockside!.parts.find(({ name }) => name === part)!.variants[""]!;
  return notes
    .map((note) => `${+(toNumber(note.position) * 4).toFixed(3)} ${note.pitch ? pitchText(note.pitch) : note.voice}`)
    .join(", ");
}

const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => "---"), ...rows]
    .map((row) => `| ${row.map((text) => text.replaceAll(/(?<!\\)\|/g, "\\|")).join(" | ")} |`)
    .join("\n");
const code = (text: string): string => `\`${text}\``;

describe("the lines of the guide", () => {
  test.each(NOTE_LINE)("of notes: $written", ({ line, notes }) => expect(notesIn("lead", line)).toBe(notes));
  test.each(DRUM_LINE)("of drums: $written", ({ line, notes }) => expect(notesIn("kit", line)).toBe(notes));
  test("have what they explain in them", () => {
    for (const { written, line } of [...NOTE_LINE, ...DRUM_LINE])
      expect(
        written.split(" ").filter((word) => line.includes(word)),
        written,
      ).not.toEqual([]);
  });
  test("are on the page", () => {
    const rows = (lines: readonly Written[]) => lines.map(({ written, is, line }) => [code(written), is, code(line)]);
    keepPart(GUIDE, "note line", table(["written", "is", "two bars with it"], rows(NOTE_LINE)));
    keepPart(GUIDE, "drum line", table(["written", "is", "two bars with it"], rows(DRUM_LINE)));
  });
});

/** A course as text, in which one line stands in the place of another. */
function courseWithLine(line: string): string {
  const key = /^\t?\s*([\w-]+):/.exec(line)![1]!;
  const lines = [
    "curriculum: quay",
    "edition: 1.0.0",
    "title: Quay",
    "patterns:",
    "  dockside:",
    "    meter: 4/4",
    "    bars: 2",
    "    parts:",
    "      kit: { voices: { hat: x-x-x-x- | ... } }",
    key === "notes" ? "      lead:" : '      lead: { notes: "1/4 D4 E4 F4 G4 | 1/2 A4 D4" }',
    ...(key === "notes" ? ["        notes: same"] : []),
    "drills:",
    "  steady:",
    "    pattern: dockside",
    "    student: lead",
    "    tempo: 90",
    "    mixes: { play: { lead: off } }",
    "    tolerance: { steadiness: 60 ms }",
  ];
  const at = lines.findIndex((each) => each.trim().startsWith(`${key}:`));
  lines[at] = line.startsWith("\t") ? line : /^ */.exec(lines[at]!)![0] + line;
  return lines.join("\n");
}

describe("what YAML swallows", () => {
  test.each(SWALLOWED)("$wrong", ({ wrong, right, code: expected }) => {
    const told = (line: string) =>
      problemsIn(readCurriculum(courseWithLine(line), FILES)).filter(({ severity }) => severity === "error");
    expect(told(wrong).map((problem) => problem.code)).toContain(expected);
    expect(told(right)).toEqual([]);
  });
  test("is on the page", () => {
    const rows = SWALLOWED.map(({ wrong, why, right }) => [
      code(wrong.replace("\t", "⇥")),
      why,
      code(right.replaceAll("|", "|")),
    ]);
    keepPart(GUIDE, "yaml", table(["you wrote", "what happens", "write"], rows));
  });
});

describe("the guide", () => {
  test("lists the names of instruments, scales and voices", async () => {
    const listed = async (kind: string): Promise<string> => {
      const { out } = await saidBy(["words", kind, "--json"]);
      const all = (JSON.parse(out) as Record<string, readonly { readonly name: string }[]>)[kind]!;
      return all.map(({ name }) => name).join(", ");
    };
    const kinds = ["instruments", "scales", "voices"];
    const lists = await Promise.all(kinds.map(async (kind) => `**${kind}:** ${await listed(kind)}.`));
    keepPart(GUIDE, "names", lists.map((list) => list.replace(/\b\w/, (letter) => letter.toUpperCase())).join("\n\n"));
  });

  test("shows each step as it stands in the course of the steps, and leaves nothing out", () => {
    const page = readFileSync(join(ROOT, GUIDE), "utf8");
    const course = readFileSync(join(RECIPES, "six-steps.yaml"), "utf8");
    const drills = course.slice(course.indexOf("\ndrills:")).split(/^ {2}(step-\d):$/m);
    const linesOf = (text: string): readonly string[] =>
      text
        .split("\n")
        .map((line) => line.trim())
        .filter(Boolean);
    const shown = new Set(linesOf(/```yaml\n([\s\S]*?)```/.exec(page)![1]!).map((line) => line.replace(/ +# .*/, "")));
    const steps = new Map(
      [...page.matchAll(/<!-- (step-\d) -->\n\n```text\n([\s\S]*?)```/g)].map((m) => [m[1]!, m[2]!]),
    );
    expect([...steps.keys()]).toEqual(["step-2", "step-3", "step-4", "step-5", "step-6"]);
    for (let i = 1; i < drills.length; i += 2) {
      const lines = linesOf(drills[i + 1]!).filter((line) => !line.startsWith("title:"));
      const added = linesOf(steps.get(drills[i]!) ?? "");
      expect(
        added.filter((line) => !lines.includes(line)),
        `${drills[i]} has no such line`,
      ).toEqual([]);
      for (const line of added) shown.add(line);
      expect(
        lines.filter((line) => !shown.has(line)),
        `${drills[i]}: lines that no step shows`,
      ).toEqual([]);
    }
  });

  test("has the picture that leeway draws", async () => {
    const folder = mkdtempSync(join(tmpdir(), "leeway-guide-"));
    const course = join(RECIPES, "six-steps.yaml");
    const said = await saidBy(["render", course, "step-5", "1", "--as", "chart", "--mix", "play", "--out", folder]);
    expect(said.status, said.err).toBe(0);
    const [chart] = readdirSync(folder, { encoding: "utf8", recursive: true }).filter((f) => f.endsWith("_chart.svg"));
    keepFile("curricula/six-steps.svg", readFileSync(join(folder, chart!), "utf8"));
    rmSync(folder, { force: true, recursive: true });
  });

  test("is written in short sentences: under 25 words on average, and few over 35", () => {
    const page = readFileSync(join(ROOT, GUIDE), "utf8").replace(/\n## Every key[\s\S]*/, "");
    const prose = page.replaceAll(/```[\s\S]*?```|<!--[\s\S]*?-->|^\|.*$|^#.*$|^\*\*(?:Instr|Scal|Voic).*$/gm, "");
    const sentences = prose.split(/[.!?:](?:\s|$)|\n\n|^- /m).map((each) => each.split(/\s+/).filter(Boolean).length);
    const counted = sentences.filter((words) => words > 2);
    expect(counted.length).toBeGreaterThan(80);
    expect(counted.reduce((sum, words) => sum + words, 0) / counted.length).toBeLessThan(25);
    expect(counted.filter((words) => words > 35)).toEqual([]);
  });
});
