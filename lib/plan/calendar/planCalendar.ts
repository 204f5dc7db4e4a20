import { durationText } from "../../time/index.js";
import { cautionsIn } from "../../words/index.js";
import type { Plan } from "../model.js";
import { adviceTexts, ENGLISH, followTexts, lineText, type PlanWords } from "../planText.js";
import { foldLine } from "./foldLine.js";

export interface CalendarOptions {
  /** When the session begins, by the clock on the wall: "17:30". */
  readonly start: string;
  /** When this is written (RFC 3339, in UTC): "2026-03-01T12:00:00Z". */
  readonly now: string;
  /** The language of the event; English when left out. */
  readonly words?: PlanWords;
}

const CLOCK = /^([01]\d|2[0-3]):([0-5]\d)$/;
const UTC = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)(?:\.\d+)?Z$/;

/**
 * A plan as an iCalendar file (RFC 5545) with one event: the session, its lines in the description, at the time of day wherever the student is
 * (a floating time). Importing the file of the same student and day again replaces the event. An empty plan has no event to give.
 *
 * Throws `RangeError` for a plan without lines, and for a `start` or `now` that is not such a time.
 *
 * @example
 * planCalendar(plan, { start: "17:30", now: "2026-03-01T12:00:00Z" }).startsWith("BEGIN:VCALENDAR") // true
 */
export function planCalendar(plan: Plan, { start, now, words = ENGLISH }: CalendarOptions): string {
  const time = CLOCK.exec(start);
  if (time === null) throw new RangeError(`a session starts at a time such as 17:30, got ${start}`);
  const stamp = UTC.exec(now);
  if (stamp === null) throw new RangeError(`now must be a time such as 2026-03-01T12:00:00Z, got ${now}`);
  if (plan.lines.length === 0) throw new RangeError("a plan without lines is no event");
  const date = plan.today.replaceAll("-", "");
  // RFC 5545, 3.4 and 3.6: a calendar with its required properties, then the event.
  return [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "CALSCALE:GREGORIAN",
    // The language of the texts (ISO 9070 names end with it).
    `PRODID:-//leeway//practice plans//${words.language.toUpperCase()}`,
    // Given, not asked or answered (3.7.2; RFC 5546, 1.4).
    "METHOD:PUBLISH",
    // In no standard: how soon a program that follows the file may ask again. Common practice.
    "X-PUBLISHED-TTL:PT1H",
    "BEGIN:VEVENT",
    `UID:${uidPart(plan.student)}-${date}-${uidPart(plan.curriculum)}@leeway.invalid`,
    `SUMMARY:${textValue(words.say("plan.practice", { curriculum: plan.curriculum }))}`,
    `DTSTAMP:${stamp.slice(1, 4).join("")}T${stamp.slice(4, 7).join("")}Z`,
    // Without a zone and without Z: a floating time (3.3.5, form 1).
    `DTSTART:${date}T${time[1]}${time[2]}00`,
    `DESCRIPTION:${textValue(description(plan, words))}`,
    "TRANSP:OPAQUE",
    `DURATION:${durationValue(plan.seconds)}`,
    "END:VEVENT",
    "END:VCALENDAR",
  ]
    .map((line) => `${foldLine(line)}\r\n`)
    .join("");
}

/** A piece of a globally unique identifier (3.8.4.7): letters that mean nothing in it, whatever the name. */
function uidPart(name: string): string {
  return encodeURIComponent(name.replaceAll(/\p{Surrogate}/gu, "\ufffd"));
}

/**
 * A value of type TEXT (3.3.11): backslash, semicolon, comma and line end escaped; control characters (3.1) and halves of characters, which it
 * cannot hold, as U+FFFD.
 */
function textValue(text: string): string {
  return text
    .replaceAll(/[\\;,]/g, "\\$&")
    .replaceAll(/\r\n?|\n/g, "\\n")
    .replaceAll(/(?!\t)[\p{Cc}\p{Surrogate}]/gu, "\ufffd");
}

/** A value of type DURATION (3.3.6), rounded up to whole seconds. Unlike ISO 8601 it has minutes between hours and seconds, even none. */
function durationValue(seconds: number): string {
  return durationText(Math.ceil(seconds)).replace(/H(?=\d+S)/, "H0M");
}

/** How long each line takes, the line and why; then the cautions. */
function description(plan: Plan, words: PlanWords): string {
  const said = plan.lines.map((line) => {
    const takes = words.say("plan.minutes-and-seconds", { clock: clockText(line.seconds) });
    const why = `${takes}  ${lineText(line, words).replace(/ {2,}/, ": ")}; ${words.word(line.message, line.because)}`;
    return [why, ...followTexts(line, words)].join("\n");
  });
  return [...said, ...adviceTexts(plan, words), ...cautionsIn(words, plan.cautions)].join("\n");
}

/** "1:20". */
function clockText(seconds: number): string {
  const whole = Math.ceil(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
