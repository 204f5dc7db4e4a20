import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { readCurriculum, rewriteCurriculum } from "../../../lib/curriculum/index.js";
import { formerNotes } from "../../../lib/pattern/index.js";
import { must } from "../../time/shorthand.js";

const options = { file: "course.yaml", readFile: () => undefined };
const fixture = (name: string): string => readFileSync(new URL(name, import.meta.url), "utf8");
/** Without the first line, which says of each file what it is. */
const body = (text: string): string => text.slice(text.indexOf("\n"));

const FORMER = fixture("harbour.yaml");
const PRESENT = fixture("harbour.present.yaml");

describe("rewriteCurriculum()", () => {
  test("converts the lines of a course and keeps everything else to the byte", () => {
    expect(body(must(rewriteCurriculum(FORMER, options)))).toBe(body(PRESENT));
  });

  test("keeps line ends as they are", () => {
    const crlf = FORMER.replaceAll("\n", "\r\n");
    expect(body(must(rewriteCurriculum(crlf, options))).replaceAll("\r\n", "\n")).toBe(body(PRESENT));
  });

  test("changes nothing in a course of the present spelling", () => {
    expect(must(rewriteCurriculum(PRESENT, options))).toBe(PRESENT);
  });

  test("gives each variant the notes that its former line was read to", () => {
    const { patterns } = must(readCurriculum(must(rewriteCurriculum(FORMER, options)), options));
    const variants = patterns.dockside!.parts.find(({ name }) => name === "lead")!.variants;
    const lines = {
      plain: "D4/4^ 3[F4/8 G4/8 A4/8] Bb4/2~ | Bb4/4 r/4 A4/2 | % | r",
      low: "D4/2.. D4/8 | r/1 | D4/1 | D4/2~ D4/4~ D4/8~ D4/8",
    };
    for (const [name, line] of Object.entries(lines)) {
      expect(variants[name]).toEqual(formerNotes(line, patterns.dockside!));
      expect(FORMER).toContain(line);
    }
  });

  test("is what the remedies of the problems of the former course print", () => {
    const problems = problemsIn(readCurriculum(FORMER, options));
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(["FORMER_SPELLING", "PICKUP_MISSING"]));
    const folded = PRESENT.replace(/\s+/g, " ");
    const rewritten = problems.filter(({ code }) => code === "FORMER_SPELLING");
    for (const { remedy } of rewritten) expect(folded).toContain(remedy!.replace(/^write: /, "").slice(0, 40));
  });

  test("refuses a line that was not read before either, and says where and what it would become", () => {
    const broken = FORMER.replace("Bb4/4 r/4 A4/2 | % | r", "Bb4/4 r/4 A4/4 | % | r");
    expect(problemsIn(rewriteCurriculum(broken, options))).toMatchObject([
      {
        code: "NOT_REWRITTEN",
        where: { file: "course.yaml", line: 31, column: 27 },
        message: expect.stringContaining("1/2 Bb4 | 1/4 tie - A4 | Bb4 - A4 | rest"),
      },
    ]);
  });

  test("refuses a line with a word that was none, with its place", () => {
    const broken = FORMER.replace("G2/8 r/8 F2/8 D2/4 |", "G2/q r/8 F2/8 D2/4 |");
    expect(problemsIn(rewriteCurriculum(broken, options))).toMatchObject([
      { code: "FORMER_SPELLING", where: { line: 23, column: 11 } },
    ]);
  });

  test("refuses a course that has another problem, and names it", () => {
    const broken = FORMER.replace("student: lead", "student: leader");
    expect(problemsIn(rewriteCurriculum(broken, options)).map(({ code }) => code)).toEqual(["PART_UNKNOWN"]);
  });

  test("refuses what is no YAML", () => {
    expect(problemsIn(rewriteCurriculum("a: [", options)).map(({ code }) => code)).toEqual(["YAML_SYNTAX"]);
  });
});
