import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { problemsIn } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { ROOT } from "../sources.js";
import { type Draft, draft, FILES } from "./keyExamples.js";

/** Where a key that the guide writes between its words belongs. */
const BELONGS: Readonly<
  Record<string, "course" | "pattern" | "lead" | "extra" | "kit" | "drill" | "dropout" | "tolerance">
> = {
  ...{ instruments: "course", scales: "course", players: "course" },
  ...{ swing: "pattern", recordings: "extra", kit: "kit" },
  ...{ "written-for": "lead", variants: "lead" },
  ...{
    dropout: "drill",
    open: "drill",
    rise: "drill",
    gate: "drill",
    "go-back": "drill",
    variant: "drill",
    mixes: "drill",
  },
  ...{
    tempo: "drill",
    key: "drill",
    beat: "drill",
    phrases: "drill",
    "count-in": "drill",
    outro: "drill",
    needs: "drill",
  },
  ...{ parts: "dropout", at: "dropout", "let-ring": "dropout" },
  ...{ drift: "tolerance", landing: "tolerance", steadiness: "tolerance" },
};

interface Said {
  readonly line: string;
  readonly spans: readonly string[];
}

const page = readFileSync(join(ROOT, "curricula/README.md"), "utf8");

/** The rows and paragraphs of the guide that write keys with values, the generated parts left out. */
const said: readonly Said[] = page
  .replaceAll(/<!-- ([a-z ]+) -->[\s\S]*?<!-- end of \1 -->/g, "")
  .replaceAll(/```[\s\S]*?```/g, "")
  .split("\n")
  .flatMap((line) => {
    const codes = [...line.matchAll(/`([^`]+)`/g)].map(([, code]) => code!.replaceAll("\\|", "|"));
    const spans = codes.filter((code) => /^(?:- )?[a-z-]+: \S/.test(code) && belongs(code));
    return spans.length === 0 ? [] : [{ line, spans }];
  });

function belongs(code: string): boolean {
  return code.startsWith("- ") || BELONGS[/^[a-z-]+/.exec(code)![0]] !== undefined;
}

/** The course of the tests, long enough for every silence of the guide, with all that a line of it writes. */
function courseWith(spans: readonly string[]): Draft {
  const course = draft();
  const { drill } = course.drills;
  course.patterns.dockside.bars = 4;
  drill.tolerance = { landing: "240 ms", drift: "15 %" };
  const ladders: Draft[] = [];
  for (const span of spans) {
    const written = parse(span) as Draft;
    if (Array.isArray(written)) {
      ladders.push(written[0]);
      for (const key of ["tempo", "variant"]) if (written[0][key] !== undefined) delete drill[key];
      if (written[0].dropout !== undefined || written[0].grows !== undefined) delete drill.dropout.length;
    } else {
      const [[key, value]] = Object.entries(written) as [[string, unknown]];
      const { parts } = course.patterns.dockside;
      if (BELONGS[key] === "kit") parts.kit = value;
      if (BELONGS[key] === "extra") parts.extra = {};
      const places = {
        course,
        pattern: course.patterns.dockside,
        lead: parts.lead,
        extra: parts.extra,
        kit: {},
        drill,
      };
      Object.assign({ ...places, dropout: drill.dropout, tolerance: drill.tolerance }[BELONGS[key]!], { [key]: value });
    }
  }
  if (ladders.length > 0) drill.ladders = ladders;
  return course;
}

describe("what the guide writes between its words", () => {
  test("is found: rows and paragraphs with keys in them", () => expect(said.length).toBeGreaterThan(25));
  test("is read where it stands in a block of its own", () => {
    const blocks = [...page.matchAll(/(?<!```\n\n|<!-- step-\d -->\n\n)```text\n(\w[\s\S]*?)```/g)].map(
      ([, text]) => text!,
    );
    expect(blocks.map((text) => text.split(":")[0])).toEqual(["kit", "mixes"]);
    for (const text of blocks) {
      const problems = problemsIn(readCurriculum(JSON.stringify(courseWith([text])), FILES));
      expect(
        problems.filter(({ severity }) => severity === "error").map(({ message }) => message),
        text,
      ).toEqual([]);
    }
  });
  test.each(said)("is read: $line", ({ spans }) => {
    const problems = problemsIn(readCurriculum(JSON.stringify(courseWith(spans)), FILES));
    expect(problems.filter(({ severity }) => severity === "error").map(({ message }) => message)).toEqual([]);
  });
});
