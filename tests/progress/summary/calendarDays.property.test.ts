import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dateOf, daysBetween, weekOf } from "../../../lib/progress/summary/calendarDays.js";
import { moments, offsets, shown } from "../../time/moments.js";

describe("dates of a journal", () => {
  test("weekOf() is the Monday on or before the date that was written", () => {
    fc.assert(
      fc.property(moments, offsets, (date, offset) => {
        const at = shown(date, offset);
        const monday = new Date(`${weekOf(at)}T00:00:00Z`);
        expect(monday.getUTCDay()).toBe(1);
        const days = (Date.parse(`${dateOf(at)}T00:00:00Z`) - monday.getTime()) / 86_400_000;
        expect(days).toBeGreaterThanOrEqual(0);
        expect(days).toBeLessThan(7);
        expect(dateOf(at)).toBe(at.slice(0, 10));
      }),
    );
  });

  test("days there are not run on into the next month, and whole days are counted by the clock", () => {
    expect(dateOf("2026-02-30T12:00:00Z")).toBe("2026-03-02");
    expect(daysBetween("2026-03-01T12:00:00Z", "2026-03-22T11:59:59Z")).toBe(20);
    expect(daysBetween("2026-03-01T12:00:00+01:00", "2026-03-22T11:00:00Z")).toBe(21);
  });
});
