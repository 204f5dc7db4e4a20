import { describe, expect, test } from "vitest";
import { type Curriculum, editionProblems } from "../../../lib/curriculum/index.js";
import { edition } from "./writing.js";

describe("editionProblems()", () => {
  const ladders = ["tempo: { from: 60, to: 90, by: 10 }"];
  const codes = (old: Curriculum, now: Curriculum): readonly string[] =>
    editionProblems(old, now).map(({ code, severity }) => `${code} ${severity}`);
  const [old, raised] = [edition({ ladders }), edition({ ladders, edition: "1.1.0" })];

  test("has nothing to say when a raised number comes with a change that loses nothing, or with none", () => {
    expect(codes(old, raised)).toEqual([]);
    expect(codes(old, edition({ ladders, edition: "1.1.0", extra: "    gate: { clean: 2, of: 2 }\n" }))).toEqual([]);
    expect(codes(old, old)).toEqual([]);
  });
  test("says when the number does not fit the change: the same with something changed, or a lower one", () => {
    expect(codes(old, edition({ ladders, extra: "    title: Falling\n" }))).toEqual(["EDITION_NOT_RAISED advice"]);
    expect(codes(raised, old)).toEqual(["EDITION_LOWERED advice"]);
    expect(codes(old, edition({ ladders, edition: "1.0.0-rc.1" }))).toEqual(["EDITION_LOWERED advice"]);
  });
  test("says where credit is lost, and how much of it", () => {
    const shorter = edition({ ladders: ["tempo: { from: 60, to: 80, by: 10 }"], edition: "2.0.0" });
    expect(editionProblems(old, shorter)).toMatchObject([
      { code: "CREDIT_LOST", message: "credit is lost in fall (1 of 4 rungs)" },
    ]);
  });
  test("says when two drills go on as one", () => {
    const joined = { ...raised, drills: raised.drills.slice(1), formerly: { hold: "fall" } };
    expect(codes(old, joined)).toEqual(["CREDIT_LOST advice", "DRILLS_JOINED advice"]);
  });
  test("refuses to compare two courses", () => {
    expect(codes(old, { ...raised, name: "harbour-test" })).toEqual(["EDITIONS_OF_TWO_COURSES error"]);
  });
});
