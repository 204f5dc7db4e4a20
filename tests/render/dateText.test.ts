import { expect, test } from "vitest";
import { dayText, fullDateText } from "../../lib/render/dateText.js";
import { ENGLISH } from "../../lib/report/index.js";
import { dayOf } from "../../lib/time/index.js";

test("dayText() and fullDateText() say the date of a day, and of any moment in it", () => {
  const day = dayOf("2026-03-02")!;
  const said = [dayText(day, ENGLISH), fullDateText(day, ENGLISH), fullDateText(day + 0.999, ENGLISH)];
  expect(said).toEqual(["2 Mar", "2 Mar 2026", "2 Mar 2026"]);
  expect(fullDateText(dayOf("2027-12-31")!, ENGLISH)).toBe("31 Dec 2027");
});

test("dayText() has a name for each month", () => {
  const days = Array.from({ length: 12 }, (_, i) => dayOf(`2026-${`${i + 1}`.padStart(2, "0")}-09`)!);
  // The three letters that English calendars use, common practice.
  const names = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(" ");
  expect(days.map((day) => dayText(day, ENGLISH))).toEqual(names.map((name) => `9 ${name}`));
});
