import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { needsProblems } from "../../lib/curriculum/needs.js";

const drills = (needs: Record<string, readonly string[]>): Record<string, { needs: readonly string[] }> =>
  Object.fromEntries(Object.entries(needs).map(([name, list]) => [name, { needs: list }]));
const codes = (needs: Record<string, readonly string[]>): readonly string[] =>
  needsProblems(drills(needs)).map(({ code, where }) => `${code} ${where.pointer}`);

describe("needsProblems()", () => {
  test("accepts drills that open one after the other", () => {
    expect(codes({ a: [], b: ["a"], c: ["a", "b"] })).toEqual([]);
  });
  test("names a drill that does not exist, and the nearest that does", () => {
    const [found] = needsProblems(drills({ steady: [], half: ["stead"] }));
    expect(found).toMatchObject({
      code: "DRILL_UNKNOWN",
      where: { pointer: "/drills/half/needs/0" },
      remedy: "write steady",
    });
  });
  test("reports a circle once, at the drill written first, all the way round", () => {
    const problems = needsProblems(drills({ z: ["b"], a: ["c"], b: ["a"], c: ["b"] }));
    expect(problems.map((each) => each.code)).toEqual(["NEEDS_ITSELF", "DRILL_UNREACHABLE"]);
    expect(problems[0]!.message).toContain('"a" needs "c", "c" needs "b", "b" needs "a"');
    expect(problems[0]!.where.pointer).toBe("/drills/a/needs/0");
    expect(problems[1]!.where.pointer).toBe("/drills/z/needs/0");
  });
  test("a drill that needs itself is a circle", () => {
    expect(codes({ a: ["a"] })).toEqual(["NEEDS_ITSELF /drills/a/needs/0"]);
  });
  test("two circles are two problems, and what needs the unreachable is unreachable", () => {
    expect(codes({ a: ["b"], b: ["a"], c: ["d"], d: ["c"], e: ["a"], f: ["e"], g: [] })).toEqual([
      "NEEDS_ITSELF /drills/a/needs/0",
      "NEEDS_ITSELF /drills/c/needs/0",
      "DRILL_UNREACHABLE /drills/e/needs/0",
      "DRILL_UNREACHABLE /drills/f/needs/0",
    ]);
  });
  test("names such as constructor are names like others", () => {
    expect(codes({ constructor: [], toString: ["constructor"], a: ["valueOf"] })).toEqual([
      "DRILL_UNKNOWN /drills/a/needs/0",
    ]);
  });
  test("ten thousand drills in a row do not overflow", () => {
    const row = Object.fromEntries(Array.from({ length: 10_000 }, (_, i) => [`d${i}`, i === 0 ? [] : [`d${i - 1}`]]));
    expect(codes(row)).toEqual([]);
  });

  test("blames exactly the drills that opening one by one never reaches", () => {
    const graph = fc.array(fc.array(fc.nat(7), { maxLength: 3 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(graph, (lists) => {
        const needs = Object.fromEntries(
          lists.map((list, i) => [`d${i}`, list.filter((n) => n < lists.length).map((n) => `d${n}`)]),
        );
        const open = new Set<string>();
        for (let grew = true; grew; ) {
          grew = false;
          for (const [name, list] of Object.entries(needs)) {
            if (!open.has(name) && list.every((need) => open.has(need))) {
              open.add(name);
              grew = true;
            }
          }
        }
        const problems = needsProblems(drills(needs));
        const circular = problems.filter((each) => each.code === "NEEDS_ITSELF");
        const behind = problems.filter((each) => each.code === "DRILL_UNREACHABLE");
        const blamed = [
          ...circular.flatMap((each) => [...new Set(each.message.match(/d\d/g))]),
          ...behind.map((each) => each.where.pointer!.split("/")[2]!),
        ];
        expect(blamed.sort()).toEqual(Object.keys(needs).filter((name) => !open.has(name)));
      }),
    );
  });
});
