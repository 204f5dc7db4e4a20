import { createEvents, type EventAttributes } from "ics";
import { durationText } from "../duration.js";
import type { Plan } from "../model.js";
import { lineText } from "../planText.js";
import { foldLines } from "./foldLines.js";

export interface CalendarOptions {
  /** When the session begins, by the clock on the wall: "17:30". */
  readonly start: string;
  /** When this is written (RFC 3339, in UTC): "2026-03-01T12:00:00Z". */
  readonly now: string;
}

const CLOCK = /^([01]\d|2[0-3]):([0-5]\d)$/;
const UTC = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)(?:\.\d+)?Z$/;

/**
 * A plan as an iCalendar file (RFC 5545) with one event: the session, its lines in the description, at the time of day wherever the student is
 * (a floating time). Importing the file of the same student and day again replaces the event. An empty plan has no event to give.
 *
 * Throws `RangeError` for a plan without lines, and for a `start` or `now` that is not such a time.
 */
export function planCalendar(plan: Plan, { start, now }: CalendarOptions): string {
  const time = CLOCK.exec(start);
  if (time === null) throw new RangeError(`a session starts at a time such as 17:30, got ${start}`);
  const stamp = UTC.exec(now);
  if (stamp === null) throw new RangeError(`now must be a time such as 2026-03-01T12:00:00Z, got ${now}`);
  if (plan.lines.length === 0) throw new RangeError("a plan without lines is no event");
  const date = plan.today.replaceAll("-", "");
  const event: EventAttributes & { readonly timestamp: string } = {
    uid: `${encodeURIComponent(plan.student)}-${date}-${encodeURIComponent(plan.curriculum)}@leeway.invalid`,
    // Times as texts pass through the library untouched; as numbers they would go through the clock of the machine.
    timestamp: `${stamp.slice(1, 4).join("")}T${stamp.slice(4, 7).join("")}Z`,
    start: `${date}T${time[1]}${time[2]}00`,
    duration: durationOf(plan.seconds),
    title: `Practice: ${plan.curriculum}`,
    description: describe(plan),
    transp: "OPAQUE",
  };
  const { error, value } = createEvents([event], { productId: "-//leeway//practice plans//EN" });
  if (error || typeof value !== "string") throw new Error(`the calendar could not be written: ${error?.message}`);
  return foldLines(value);
}

/** ISO 8601 for people and programs beside each line, then the cautions. */
function describe({ lines, outlook, remarks, cautions }: Plan): string {
  const said = lines.map((line) => `${durationText(line.seconds)}  ${lineText(line)}; ${line.because}`);
  return [...said, ...(outlook === undefined ? [] : [outlook.says]), ...remarks, ...cautions].join("\n");
}

/** Hours, minutes and seconds; the library writes a duration in days wrongly. */
function durationOf(seconds: number): { hours: number; minutes: number; seconds: number } {
  const whole = Math.ceil(seconds);
  return { hours: Math.floor(whole / 3600), minutes: Math.floor((whole % 3600) / 60), seconds: whole % 60 };
}
