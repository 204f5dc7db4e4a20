import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { foldLines } from "../../lib/plan/calendar/foldLines.js";
import { planCalendar } from "../../lib/plan/calendar/index.js";
import { type Plan, planSession } from "../../lib/plan/index.js";
import { must } from "../time/shorthand.js";
import { FIRST_COURSE, played } from "./course.js";

const LONE_HALF = /\p{Surrogate}/u;
const NOW = "2026-03-19T10:00:00.123Z";
const planFor = (minutes: number): Plan =>
  must(planSession({ curriculum: FIRST_COURSE, ...played("w".repeat(30)), today: "2026-03-20", minutes, seed: 1 }));
const unfolded = (text: string): readonly string[] => text.replaceAll("\r\n ", "").split("\r\n");
const octets = (text: string): number => new TextEncoder().encode(text).length;

describe("foldLines()", () => {
  test("unfolds the example of RFC 5545, 3.1 and folds it no longer than 75 octets", () => {
    // RFC 5545, 3.1 (from memory): a description folded with a blank and with a tab is the one long line.
    const long = "DESCRIPTION:This is a long description that exists on a long line.";
    expect(foldLines("DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.")).toBe(long);
    expect(foldLines("DESCRIPTION:This is a lo\r\n\tng description\r\n\t that exists on a long line.")).toBe(long);
  });

  test("counts octets, splits no character, and loses nothing", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "binary", maxLength: 400 }).map((text) => text.replaceAll(/[\r\n]/g, "")),
        (text) => {
          const folded = foldLines(`X:${text}`);
          for (const line of folded.split("\r\n")) expect(octets(line)).toBeLessThanOrEqual(75);
          expect(folded.replaceAll("\r\n ", "")).toBe(`X:${text}`);
          // A text without lone halves of surrogate pairs has none in its lines either.
          for (const line of folded.split("\r\n")) expect(LONE_HALF.test(text) || !LONE_HALF.test(line)).toBe(true);
        },
      ),
    );
    // 75 octets stay, 76 do not.
    expect(foldLines("é".repeat(37))).not.toContain("\r\n");
    expect(foldLines("é".repeat(38))).toBe(`${"é".repeat(37)}\r\n é`);
  });
});

describe("planCalendar()", () => {
  test("is one event at the time of day wherever the student is, as long as the plan", () => {
    const plan = planFor(20);
    const lines = unfolded(planCalendar(plan, { start: "17:30", now: NOW }));
    expect(lines.slice(0, 2)).toEqual(["BEGIN:VCALENDAR", "VERSION:2.0"]);
    for (const line of [
      "BEGIN:VEVENT",
      "END:VEVENT",
      "DTSTAMP:20260319T100000Z",
      "DTSTART:20260320T173000",
      "CALSCALE:GREGORIAN",
    ])
      expect(
        lines.filter((each) => each === line),
        line,
      ).toHaveLength(1);
    for (const name of ["UID", "PRODID", "SUMMARY"])
      expect(
        lines.filter((each) => each.startsWith(`${name}:`)),
        name,
      ).toHaveLength(1);
    const [, h = "0", m = "0", s = "0"] = /^DURATION:PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?$/.exec(
      lines.find((line) => line.startsWith("DURATION"))!,
    )!;
    expect(3600 * Number(h) + 60 * Number(m) + Number(s)).toBe(plan.seconds);
  });

  test("ends every line with CRLF and folds at 75 octets, whatever the names", () => {
    const plan = { ...planFor(60), student: 'Zoë; "tern", 海鳥', curriculum: `${"ä".repeat(120)}` };
    const text = planCalendar(plan, { start: "07:05", now: NOW });
    expect(text.endsWith("END:VCALENDAR\r\n")).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    for (const line of text.split("\r\n")) expect(octets(line)).toBeLessThanOrEqual(75);
  });

  test("escapes what RFC 5545, 3.3.11 says: backslash, semicolon, comma, line end", () => {
    const plan = planFor(20);
    const odd: Plan = { ...plan, remarks: ["a\\b; c, d"], lines: plan.lines.slice(0, 1), cautions: ["last"] };
    const description = unfolded(planCalendar(odd, { start: "17:30", now: NOW })).find((line) =>
      line.startsWith("DESCRIPTION:"),
    )!;
    expect(description).toContain("\\na\\\\b\\; c\\, d\\nlast");
  });

  test("is the same text on every machine and in every zone", () => {
    const zone = process.env.TZ;
    const texts = ["UTC", "Pacific/Kiritimati", "America/St_Johns"].map((name) => {
      process.env.TZ = name;
      return planCalendar(planFor(20), { start: "02:30", now: NOW });
    });
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
    expect(new Set(texts).size).toBe(1);
  });

  test("refuses a time of day that is none, a time not in UTC, and a plan without lines", () => {
    const plan = planFor(20);
    expect(() => planCalendar(plan, { start: "24:00", now: NOW })).toThrow(RangeError);
    expect(() => planCalendar(plan, { start: "17:30", now: "2026-03-19T10:00:00+01:00" })).toThrow(RangeError);
    expect(() => planCalendar({ ...plan, lines: [] }, { start: "17:30", now: NOW })).toThrow(RangeError);
  });
});
