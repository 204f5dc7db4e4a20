import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dateOfDay, dateText, dayOf, dayOfTime, daysOf, instantOf, mondayOf } from "../../lib/time/index.js";
import { moments, offsets, shown } from "./moments.js";

const DAY_MS = 86_400_000;

describe("dayOf() and dateText()", () => {
  test("agree with the platform's calendar on every day of four centuries", () => {
    for (let day = dayOf("1900-01-01")!; day < dayOf("2300-01-01")!; day++) {
      const text = new Date(day * DAY_MS).toISOString().slice(0, 10);
      if (dateText(day) !== text || dayOf(text) !== day) throw new Error(`${text}: ${dateText(day)}, ${dayOf(text)}`);
    }
    expect(dayOf("1970-01-01")).toBe(0);
  });

  test("refuse what is no date", () => {
    for (const text of [
      "2026-02-29",
      "2026-02-30",
      "2026-13-01",
      "2026-00-10",
      "2026-04-31",
      "2026-4-1",
      "12 March",
      "",
      "2026-03-12T00:00:00Z",
    ])
      expect(dayOf(text), text).toBeUndefined();
    expect(dayOf("2028-02-29")).toBeDefined();
    expect(dayOf("2100-02-29")).toBeUndefined();
  });
});

// The platform's own calendar is the oracle: ECMA-262 defines it as proleptic Gregorian without leap seconds.
const date = fc.date({
  min: new Date("1600-01-01T00:00:00Z"),
  max: new Date("2399-12-31T23:59:59Z"),
  noInvalidDate: true,
});

describe("days", () => {
  test("daysOf() counts as the platform does, and dateOfDay() finds the date again", () => {
    fc.assert(
      fc.property(date, (each) => {
        expect(daysOf(each.toISOString())).toBeCloseTo(each.getTime() / DAY_MS, 6);
        expect(dateOfDay(Math.floor(each.getTime() / DAY_MS))).toEqual({
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
        const days = Math.floor(each.getTime() / DAY_MS);
        const monday = mondayOf(days);
        expect(new Date(monday * DAY_MS).getUTCDay()).toBe(1);
        expect(days - monday).toBeGreaterThanOrEqual(0);
        expect(days - monday).toBeLessThan(7);
      }),
    );
  });

  test("the day is the one written, whatever the offset, and runs on where the month has no such day", () => {
    expect(dateText(dayOfTime("2026-03-02T23:30:00-08:00"))).toBe("2026-03-02");
    expect(dateText(dayOfTime("2026-02-30T12:00:00Z"))).toBe("2026-03-02");
  });

  test("a text that is no time has no day", () => {
    for (const told of [daysOf, dayOfTime, instantOf]) expect(told("Monday")).toBeNaN();
  });
});

describe("moments", () => {
  test("instantOf() is what the platform's calendar says, wherever the clock was", () => {
    fc.assert(
      fc.property(moments, offsets, (date, offset) => {
        expect(instantOf(shown(date, offset))).toBeCloseTo(date.getTime(), 2);
        expect(instantOf(date.toISOString())).toBeCloseTo(date.getTime(), 2);
      }),
    );
  });
});
