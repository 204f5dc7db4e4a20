import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dateText, daysOf, mondayOf } from "../../lib/render/chart/calendar.js";
import { dateOfDay } from "../../lib/time/index.js";

// The platform's own calendar is the oracle: ECMA-262 defines it as proleptic Gregorian without leap seconds.
const date = fc.date({
  min: new Date("1600-01-01T00:00:00Z"),
  max: new Date("2399-12-31T23:59:59Z"),
  noInvalidDate: true,
});
const DAY = 86_400_000;

describe("days", () => {
  test("daysOf() counts as the platform does, and dateOfDay() finds the date again", () => {
    fc.assert(
      fc.property(date, (each) => {
        expect(daysOf(each.toISOString())).toBeCloseTo(each.getTime() / DAY, 6);
        expect(dateOfDay(Math.floor(each.getTime() / DAY))).toEqual({
          year: each.getUTCFullYear(),
          month: each.getUTCMonth() + 1,
          day: each.getUTCDate(),
        });
      }),
    );
  });

  test("mondayOf() is a Monday on or less than a week before", () => {
    fc.assert(
      fc.property(date, (each) => {
        const days = Math.floor(each.getTime() / DAY);
        const monday = mondayOf(days);
        expect(new Date(monday * DAY).getUTCDay()).toBe(1);
        expect(days - monday).toBeGreaterThanOrEqual(0);
        expect(days - monday).toBeLessThan(7);
      }),
    );
  });

  test("the date is the one written, whatever the offset", () => {
    expect(dateText(daysOf("2026-03-02T23:30:00-08:00"))).toBe("2 Mar 2026");
  });

  test("a text that is no time has no day", () => {
    expect(daysOf("Monday")).toBeNaN();
  });
});
