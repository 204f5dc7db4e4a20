import { describe, expect, test } from "vitest";
import { type Problem, problemsIn } from "../../../lib/base/index.js";
import { readCurriculum } from "../../../lib/curriculum/index.js";

/** A course with one line of its own; `line` stands where the title, the chords or the parts are written. */
function course({ title = "Broken on purpose", chords = "C | ...", parts = "lead: { notes: 1/1 D4 | ... }" }): string {
  return `curriculum: quay-test
edition: 1.0.0
title: ${title}
patterns:
  riff:
    meter: 4/4
    bars: 2
    chords: ${chords}
    parts:
      kit: { voices: { hat: xxxx | ... } }
      ${parts}
drills:
  hold: { pattern: riff, student: lead, tempo: 90, tolerance: { steadiness: 40 ms } }
`;
}

function errorsIn(text: string): readonly Problem[] {
  const read = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
  return problemsIn(read).filter(({ severity }) => severity === "error");
}

/** The errors; advice on so slow a riff is beside the point. */
const found = (text: string): readonly string[] =>
  errorsIn(text).map(
    ({ code, where, message }) =>
      `${code} ${where.line}:${where.column} ${/YAML takes "(.*)" in/.exec(message)?.[1] ?? message}`,
  );

describe("a line that YAML reads otherwise than it is written needs quotes", () => {
  test("a course without such a line has no problem", () => expect(found(course({}))).toEqual([]));

  test.each([
    ["swallowed: a number sign in a title", { title: "Riff #3" }, "LINE_NEEDS_QUOTES 3:13 #3"],
    ["swallowed: a title that begins with one", { title: "#3" }, "LINE_NEEDS_QUOTES 3:8 #3"],
    ["swallowed: a chord", { chords: "C | D7 #9" }, "LINE_NEEDS_QUOTES 8:20 #9"],
    ["swallowed: a note", { parts: "lead:\n        notes: !D4" }, "LINE_NEEDS_QUOTES 12:16 !D4"],
    ["a mark before a note", { parts: "lead:\n        notes: !D4 1/4" }, "LINE_NEEDS_QUOTES 12:16 !D4"],
    ["a colon", { title: "Quay: the riff" }, "LINE_NEEDS_QUOTES 3:12 :"],
    ["silence first", { parts: "lead:\n        notes: - | 1/1 D4" }, "LINE_NEEDS_QUOTES 12:16 -"],
    ["silence first in braces", { parts: "lead: { notes: - | 1/1 D4 }" }, "LINE_NEEDS_QUOTES 11:22 -"],
    ["silence alone", { parts: "lead:\n        notes: -" }, "LINE_NEEDS_QUOTES 12:16 -"],
    ["a bar line first", { parts: "lead:\n        notes: | 1/1 D4 | ..." }, "LINE_NEEDS_QUOTES 12:16 |"],
    ["a bar line first in braces", { parts: "lead: { notes: | 1/1 D4 | ... }" }, "LINE_NEEDS_QUOTES 11:22 |"],
    ["a bracket in braces", { parts: "lead: { notes: 3 in 2 [1/2 D4 E4 F4] | ... }" }, "LINE_NEEDS_QUOTES 11:29 [1/2"],
    ["a percent sign first", { parts: "lead:\n        notes: % | 1/1 D4" }, "LINE_NEEDS_QUOTES 12:16 %"],
    [
      "a percent sign first in a voice",
      { parts: "lead: { notes: 1/1 D4 | ... }\n      more: { voices: { kick: % | x---, snare: x--- | ... } }" },
      "LINE_NEEDS_QUOTES 12:31 %",
    ],
    [
      "a comment without a blank in braces",
      { parts: "lead: { notes: 1/1 D4 #x | ... }" },
      "LINE_NEEDS_QUOTES 11:29 #x",
    ],
  ])("%s", (_, line, problem) => {
    expect(found(course(line))).toEqual([problem]);
    const [each] = errorsIn(course(line));
    expect(each!.remedy).toMatch(/^put quotes around the line/);
    expect(each!.where.pointer).toMatch(/(title|chords|notes|kick)$/);
  });

  test("two at once, each at its place, and an error that quotes do not mend beside them", () => {
    const text = course({ title: "Quay: the riff", parts: "lead: { notes: - | 1/1 D4 }" });
    expect(found(text)).toEqual(["LINE_NEEDS_QUOTES 3:12 :", "LINE_NEEDS_QUOTES 11:22 -"]);
    expect(found(text.replace("bars: 2", "bars: [2"))).toEqual(
      expect.arrayContaining(["LINE_NEEDS_QUOTES 3:12 :", expect.stringMatching(/^YAML_SYNTAX /)]),
    );
  });

  test.each([
    ["a comment", { title: "Riff # the third" }],
    [
      "quotes",
      { title: '"Riff #3: quay"', chords: "'C | D7#9'", parts: 'lead: { notes: "- | 3 in 2 [1/2 D4 E4 F4]" }' },
    ],
    ["a text of several lines", { parts: "lead:\n        notes: >-\n          1/1 D4 |\n          D4" }],
    ["a sharp sign inside a chord", { chords: "C | D7#9" }],
    ["an anchor and an alias", { parts: "lead: { notes: &line 1/1 D4 | ... }\n      bass: { notes: *line }" }],
    ["brackets outside braces", { parts: "lead:\n        notes: 3 in 2 [1/2 D4 E4 F4] | ..." }],
    ["rest, same and ... without quotes", { chords: "rest | C", parts: "lead: { notes: rest | 1/2 D4 D4 | ... }" }],
    ["a text that only speaks of such lines", { title: ">-\n  A title\n  notes: - and title: a #3 in words" }],
  ])("%s needs none", (_, line) => expect(found(course(line))).toEqual([]));

  test("a text full of such lines is answered in time", () => {
    const begin = performance.now();
    for (const piece of ["title: #a\n", "{hat: ", "{ hat: - , ", ",hat:  ", "notes: % ", "title: a: b\n"]) {
      found(piece.repeat(Math.floor(200_000 / piece.length)));
    }
    expect(performance.now() - begin).toBeLessThan(20_000);
  });
});
