import { expect, test } from "vitest";
import { holdLately } from "../../lib/store/sql/lately.js";

const keyOf = (i: number) => ({ student: `s${i}`, curriculum: "quay" });

test("counts of who was first are kept of the thousand journals in which it came last, and of no more", () => {
  const lately = holdLately();
  for (let i = 0; i < 1000; i++) expect(lately.overtaken(keyOf(i))).toBe(1);
  expect(lately.overtaken(keyOf(0))).toBe(2);
  lately.overtaken(keyOf(1000));
  // The one of which it is longest ago is forgotten, and begins anew.
  expect([0, 1, 2].map((i) => lately.overtaken(keyOf(i)))).toEqual([3, 1, 1]);
});
