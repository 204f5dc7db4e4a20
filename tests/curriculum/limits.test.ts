import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { DEEPEST, LARGEST_PIECE, LARGEST_TEXT, MOST_PROBLEMS, mostTokens } from "../../lib/curriculum/limits.js";
import { courseText, HOLD, read } from "./courses.js";

const codes = (text: string): readonly string[] => problemsIn(read(text)).map((each) => each.code);

describe("a limit", () => {
  test("of size holds to the character", () => {
    const text = courseText();
    const padded = (length: number): string => `${text}#${"x".repeat(length - text.length - 1)}`;
    expect(codes(padded(LARGEST_PIECE))).toEqual([]);
    // Beyond, a drill is too long when it is longer than that by itself.
    const [head, drill] = text.split("drills:\n") as [string, string];
    const long = (length: number): string => `${drill}#${"x".repeat(length - drill.length - 1)}`;
    expect(codes(`${head}drills:\n${long(LARGEST_PIECE)}`)).toEqual([]);
    expect(codes(`${head}drills:\n${long(LARGEST_PIECE + 1)}`)).toEqual(["TEXT_TOO_LARGE"]);
  });
  test("of size holds to the character for a text of many drills", () => {
    const long = Array.from({ length: 10 }, (_, i) => `${HOLD.replace("hold", `hold-${i}`)}#${"x".repeat(240_000)}\n`);
    const text = courseText({ drills: long.join("") + HOLD });
    const padded = (length: number): string => `${text}#${"x".repeat(length - text.length - 1)}`;
    expect(codes(padded(LARGEST_TEXT))).toEqual([]);
    expect(codes(padded(LARGEST_TEXT + 1))).toEqual(["TEXT_TOO_LARGE"]);
  });
  test("of what stands outside patterns and drills is said with what a large course looks like", () => {
    const [found] = problemsIn(
      read(`${courseText()}${`# ${"x".repeat(96)}\n`.repeat(3000)}`.replace("drills:", "drills: &all")),
    );
    expect(found).toMatchObject({ code: "TEXT_TOO_LARGE", where: { line: 1 } });
    expect(found!.remedy).toContain("a line of its own");
  });
  test("of tokens is met by comments as by anything else", () => {
    const text = courseText();
    expect(codes(`${text}${"#\n".repeat(mostTokens(0) / 4)}`)).toEqual([]);
    expect(codes(`${text}${"#\n".repeat(0.6 * mostTokens(0))}`)).toEqual(["TOO_MANY_TOKENS"]);
  });
  test("of nesting does not count brackets that are only text", () => {
    const brackets = "[{".repeat(DEEPEST);
    const quoted = courseText({ head: `about: "${brackets}"\n` });
    const folded = courseText({ head: `about: >-\n  ${brackets}\n` });
    const comment = courseText({ head: `# ${brackets}\n` });
    for (const text of [quoted, folded, comment]) expect(codes(text)).toEqual([]);
  });
  test("of problems leaves none of the errors for advice, and says how many are left out", () => {
    const drill = (i: number): string =>
      `${HOLD.replace("hold", `d${i}`).replace("40 ms", "5 ms")}    needs: [nowhere]\n`;
    const drills = Array.from({ length: MOST_PROBLEMS + 7 }, (_, i) => drill(i)).join("");
    const found = problemsIn(read(courseText({ drills })));
    expect(found.length).toBe(MOST_PROBLEMS + 1);
    expect(found.filter((each) => each.code === "DRILL_UNKNOWN").length).toBe(MOST_PROBLEMS);
    expect(found.at(-1)).toMatchObject({ code: "TOO_MANY_PROBLEMS", severity: "error" });
    expect(found.at(-1)!.message).toMatch(new RegExp(`^${MOST_PROBLEMS + 14} more problems`));
  });
  test("of work is far above a hundred ordinary drills, and met by lists that multiply", () => {
    const ordinary = Array.from({ length: 100 }, (_, i) => HOLD.replace("hold", `hold-${i}`)).join("");
    expect(codes(courseText({ drills: ordinary }))).toEqual([]);
    const list = (count: number, item: (i: number) => string): string =>
      Array.from({ length: count }, (_, i) => item(i + 1)).join(", ");
    const greedy = (i: number): string => `  greedy-${i}:
    pattern: riff
    student: lead
    tempo: 90
    dropout: { at: random, parts: [kit, bass] }
    ladders:
      - dropout: [${list(60, (k) => `${k}/64 bar`)}]
      - open: [${list(4, (k) => `[${k}]`)}]
      - variant: [plain, busy]
    tolerance: { drift: 30 % }
`;
    expect(codes(courseText({ drills: Array.from({ length: 120 }, (_, i) => greedy(i)).join("") }))).toContain(
      "COURSE_TOO_LARGE",
    );
  });
});
