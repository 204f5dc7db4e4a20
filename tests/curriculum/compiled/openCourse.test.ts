import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import * as zlib from "node:zlib";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { crc32 } from "../../../lib/curriculum/compiled/crc32.js";
import { type Curriculum, compileCourse, openCourse, readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { beginJournal, decide } from "../../../lib/progress/index.js";
import { checkCompiled } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { ROOT } from "../../sources.js";

const FOLDER = join(ROOT, "curricula");

const shipped: readonly (readonly [string, Curriculum])[] = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".yaml"))
  .map((name) => {
    const read = readCurriculum(readFileSync(join(FOLDER, name), "utf8"), { file: name, readFile: () => undefined });
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    return [name, read.value];
  });

function reopened(course: Curriculum): Curriculum {
  const opened = openCourse(compileCourse(course));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  return opened.value;
}

/** The scores of the rungs of a drill: all of them, or both ends and some between of a long drill. */
function scores(drill: Curriculum["drills"][number]): readonly unknown[] {
  const all = rungs(drill);
  const step = Math.max(1, Math.floor(all.count / 12));
  return Array.from({ length: Math.ceil(all.count / step) }, (_, i) => scoreOf(all.at(i * step)));
}

/** The events of a student who plays every note of the first rung on time, then 200 ms late, four times each. */
function decisions(course: Curriculum): readonly unknown[] {
  const drill = course.drills[0]!;
  const score = { curriculum: course.name, edition: course.edition, ...scoreOf(rungs(drill).at(0)) };
  const decided = [beginJournal(course, "tern", "2026-03-02T17:30:00Z")];
  for (let i = 0; i < 8; i++) {
    const late = i < 4 ? 0 : 0.2;
    const onsets = score.expected.map(({ at }, note) => ({ at: at + (note % 2) * late }));
    const finding = { ...assess(score, { onsets, zero: "bar-1" }), take: `take-${i}` };
    decided.push(decide(course, decided.at(-1)!.standing, finding, `2026-03-02T17:4${i}:00Z`));
  }
  return decided;
}

describe.each(shipped)("%s, compiled ahead and opened", (_, course) => {
  test("is the same course", () => {
    expect(reopened(course)).toEqual(course);
  });
  test("has the same scores", () => {
    expect(reopened(course).drills.map(scores)).toEqual(course.drills.map(scores));
  });
  test("leads to the same decisions", () => {
    expect(decisions(reopened(course))).toEqual(decisions(course));
  });
  test("fits its schema, and is the same text each time", () => {
    expect(checkCompiled(JSON.parse(compileCourse(course)))).toMatchObject({ ok: true });
    expect(compileCourse(reopened(course))).toBe(compileCourse(course));
  });
});

describe("openCourse()", () => {
  const text = compileCourse(shipped[0]![1]);
  const codesOf = (written: string): readonly string[] => {
    const opened = openCourse(written);
    return opened.ok ? [] : opened.problems.map(({ code }) => code);
  };

  test("is given text: what was parsed already, or was never there, is a mistake of the program", () => {
    for (const given of [JSON.parse(text), undefined]) expect(() => openCourse(given as string)).toThrow(TypeError);
  });

  test("refuses a text in which a character was changed or lost, unless it says the same", () => {
    fc.assert(
      fc.property(fc.nat(text.length - 2), fc.constantFrom("", "0", "7", "x", '"', "}"), (at, instead) => {
        const changed = text.slice(0, at) + instead + text.slice(at + 1);
        fc.pre(changed !== text);
        expect(codesOf(changed)).toHaveLength(1);
      }),
    );
  });
  test("refuses a text that was cut off", () => {
    fc.assert(
      fc.property(fc.nat(text.length - 2), (length) => {
        expect(codesOf(text.slice(0, length))).toEqual(["COMPILED_COURSE_UNREADABLE"]);
      }),
    );
  });
  test("says which version it can open", () => {
    const newer = text.replace('"version":1', '"version":2');
    expect(openCourse(newer)).toMatchObject({
      ok: false,
      problems: [{ code: "COMPILED_VERSION_UNKNOWN", message: expect.stringContaining("version 1") }],
    });
  });
  test("says what was found where a value was changed", () => {
    expect(codesOf(text.replace("Quayside", "Riverside"))).toEqual(["COMPILED_COURSE_ALTERED"]);
  });
  test("refuses a course as YAML, a list, and null", () => {
    for (const other of ["curriculum: quay", "[]", "null", "{}"])
      expect(codesOf(other)).toEqual(["COMPILED_COURSE_UNREADABLE"]);
  });
});

describe("compileCourse()", () => {
  test("throws for a drill whose pattern is not of the course", () => {
    const [, course] = shipped[0]!;
    expect(() => compileCourse({ ...course, patterns: {} })).toThrow(RangeError);
  });
});

describe("crc32()", () => {
  // The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms (G. Cook): cbf43926 for "123456789".
  test("gives the check value of the algorithm", () => {
    expect(crc32(new TextEncoder().encode("123456789")).toString(16)).toBe("cbf43926");
    expect(crc32(new Uint8Array())).toBe(0);
  });
  test("agrees with zlib", (context) => {
    const theirs = (zlib as { crc32?: (bytes: Uint8Array) => number }).crc32;
    if (theirs === undefined) return context.skip("this Node has no zlib.crc32 (20.15 and later have it)");
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(crc32(bytes)).toBe(theirs(bytes));
      }),
    );
  });
});
