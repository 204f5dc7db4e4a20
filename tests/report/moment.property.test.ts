import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dateOf, daysBetween, instantOf, weekOf } from "../../lib/report/moment.js";

const moments = fc.date({
  min: new Date("1905-01-01T00:00:00Z"),
  max: new Date("2199-12-31T00:00:00Z"),
  noInvalidDate: true,
});
const offsets = fc.integer({ min: -14 * 60, max: 14 * 60 });

/** The moment as a clock so many minutes ahead of UTC shows it. */
function shown(date: Date, offset: number): string {
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, -1);
  const two = (value: number): string => `${value}`.padStart(2, "0");
  const size = Math.abs(offset);
  return `${local}${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

describe("moments of a journal", () => {
  test("instantOf() is what the platform's calendar says, wherever the clock was", () => {
    fc.assert(
      fc.property(moments, offsets, (date, offset) => {
        expect(instantOf(shown(date, offset))).toBeCloseTo(date.getTime(), 2);
        expect(instantOf(date.toISOString())).toBeCloseTo(date.getTime(), 2);
      }),
    );
  });

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
