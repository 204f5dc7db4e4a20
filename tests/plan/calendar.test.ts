import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { foldLine } from "../../lib/plan/calendar/foldLine.js";
import { planCalendar } from "../../lib/plan/calendar/index.js";
import { type Plan, planSession } from "../../lib/plan/index.js";
import { must } from "../time/shorthand.js";
import { FIRST_COURSE, played } from "./course.js";

const LONE_HALF = /\p{Surrogate}/u;
const NOW = "2026-03-19T10:00:00.123Z";
const student = played("w".repeat(30));
const planFor = (minutes: number): Plan =>
  must(planSession({ curriculum: FIRST_COURSE, ...student, today: "2026-03-20", minutes, seed: 1 }));
const unfolded = (text: string): readonly string[] => text.replaceAll("\r\n ", "").split("\r\n");
const octets = (text: string): number => new TextEncoder().encode(text).length;

describe("foldLine()", () => {
  test("counts octets, splits no character, and loses nothing", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "binary", maxLength: 400 }).map((text) => text.replaceAll(/[\r\n]/g, "")),
        (text) => {
          const folded = foldLine(`X:${text}`);
          for (const line of folded.split("\r\n")) expect(octets(line)).toBeLessThanOrEqual(75);
          // RFC 5545, 3.1: unfolding takes CRLF and the one blank after it away.
          expect(folded.replaceAll("\r\n ", "")).toBe(`X:${text}`);
          // A text without lone halves of surrogate pairs has none in its lines either.
          for (const line of folded.split("\r\n")) expect(LONE_HALF.test(text) || !LONE_HALF.test(line)).toBe(true);
        },
      ),
    );
    // 75 octets stay, 76 do not.
    expect(foldLine("é".repeat(37))).not.toContain("\r\n");
    expect(foldLine("é".repeat(38))).toBe(`${"é".repeat(37)}\r\n é`);
  });
});

/** The one event of a calendar, as another program reads it. */
function eventIn(text: string): ICAL.Event {
  const calendar = new ICAL.Component(ICAL.parse(text));
  expect(calendar.name).toBe("vcalendar");
  const events = calendar.getAllSubcomponents("vevent");
  expect(events).toHaveLength(1);
  return new ICAL.Event(events[0]!);
}

describe("planCalendar()", () => {
  test("is read back by another program: times, length, and texts with whatever is in them", () => {
    const plan = planFor(60);
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme", minLength: 1, maxLength: 60 }),
        fc.string({ unit: "grapheme", minLength: 1, maxLength: 60 }),
        fc.integer({ min: 1, max: 36_000 }),
        fc.constantFrom("\n", "\r\n", "\\n", "\t", ";", ",", ":", '"', "\\"),
        (student, curriculum, seconds, odd) => {
          const advice = `one${odd}two`;
          const odder: Plan = { ...plan, student, curriculum, seconds, advice: [advice], cautions: ["last"] };
          const event = eventIn(planCalendar(odder, { start: "17:30", now: NOW }));
          expect(event.summary).toBe(`Practice: ${curriculum}`);
          expect(event.description).toMatch(/^\d+:\d\d min {2}\S/);
          expect(event.description.endsWith(`\n${advice.replace("\r\n", "\n")}\nlast`)).toBe(true);
          expect(event.startDate.toString()).toBe("2026-03-20T17:30:00");
          expect(event.startDate.zone).toBe(ICAL.Timezone.localTimezone);
          expect(event.duration.toSeconds()).toBe(seconds);
          expect(event.uid).toBe(
            `${encodeURIComponent(student)}-20260320-${encodeURIComponent(curriculum)}@leeway.invalid`,
          );
          expect(String(event.component.getFirstPropertyValue("dtstamp"))).toBe("2026-03-19T10:00:00Z");
        },
      ),
    );
  });

  test("has each property once that RFC 5545 requires or allows once, and no other that it does not know", () => {
    // 3.6: PRODID and VERSION are required. 3.6.1: UID and DTSTAMP are, the others at most once, DURATION never beside DTEND.
    const lines = unfolded(planCalendar(planFor(20), { start: "17:30", now: NOW }));
    const names = lines.filter((line) => line !== "").map((line) => /^[A-Z-]+(?=:)/.exec(line)?.[0]);
    expect(names).toEqual(
      "BEGIN VERSION CALSCALE PRODID METHOD X-PUBLISHED-TTL BEGIN UID SUMMARY DTSTAMP DTSTART DESCRIPTION TRANSP DURATION END END".split(
        " ",
      ),
    );
  });

  test.each([
    [3605, "PT1H0M5S"],
    [3600, "PT1H"],
    [3660, "PT1H1M"],
    [59.2, "PT1M"],
    [36_000, "PT10H"],
  ])("has %f s last %s: RFC 5545, 3.3.6 allows no seconds after hours without minutes", (seconds, value) => {
    const lines = unfolded(planCalendar({ ...planFor(20), seconds }, { start: "17:30", now: NOW }));
    expect(lines).toContain(`DURATION:${value}`);
  });

  test("writes no control character and no half of one, whatever the names hold", () => {
    const odd: Plan = { ...planFor(20), student: "a\ud800", curriculum: "b\u0000\u0007\ud800c\rd" };
    const text = planCalendar(odd, { start: "17:30", now: NOW });
    expect(text.replaceAll("\r\n", "")).not.toMatch(/(?!\t)[\p{Cc}\p{Surrogate}]/u);
    expect(eventIn(text).summary).toBe("Practice: b\ufffd\ufffd\ufffdc\nd");
  });

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
    const odd: Plan = { ...plan, advice: ["a\\b; c, d"], lines: plan.lines.slice(0, 1), cautions: ["last"] };
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
