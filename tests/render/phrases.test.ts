import { expect, test } from "vitest";
import { dayText, fullDateText, listed } from "../../lib/render/phrases.js";
import { dayOf } from "../../lib/time/index.js";

test("dayText() and fullDateText() say the date of a day, and of any moment in it", () => {
  const day = dayOf("2026-03-02")!;
  expect([dayText(day), fullDateText(day), fullDateText(day + 0.999)]).toEqual(["2 Mar", "2 Mar 2026", "2 Mar 2026"]);
  expect(fullDateText(dayOf("2027-12-31")!)).toBe("31 Dec 2027");
});

test("listed() joins names", () => {
  expect([[], ["kit"], ["bass", "kit"], ["a", "b", "c"]].map(listed)).toEqual([
    "",
    "kit",
    "bass and kit",
    "a, b and c",
  ]);
});
