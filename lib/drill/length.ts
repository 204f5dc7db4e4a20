import { divide, failure, ONE } from "../base/index.js";
import type { Pattern } from "../pattern/index.js";
import { type Meter, parseSpan, readSpan, resolveSpan, type Span, sameMeter } from "../time/index.js";
import { drillProblem } from "./codes.js";
import type { Result } from "./problem.js";
import { say } from "./rung/saySetting.js";

/** Finest part of a bar, beat or note that is read. Our choice: triplets of sixty-fourth notes, so that arithmetic stays exact. */
const FINEST_PART = 96;

/** Reads a length in a drill, of a silence or a count-in. Problems: those of `parseSpan`, and LENGTH_TOO_FINE for finer parts. */
export function parseLength(text: string): Result<Span> {
  const span = parseSpan(text);
  if (!span.ok || span.value.count.d <= FINEST_PART) return span;
  const { count, unit } = span.value;
  const message = say("setting-problem.length-too-fine", { finest: `1/${FINEST_PART}`, found: `1/${count.d}`, unit });
  return failure(drillProblem("LENGTH_TOO_FINE", message, {}, say("setting-problem.length-too-fine-remedy")));
}

/** The length that a text says, without a word on why it says none. */
export function readLength(text: string): Span | undefined {
  const span = readSpan(text);
  return span === undefined || span.count.d > FINEST_PART ? undefined : span;
}

/** The units in which a length can be written. */
export const UNITS: readonly Span["unit"][] = ["bar", "beat", "note"];

/** The meter of a pattern with one meter; `undefined` when the meter changes. */
export function onlyMeter(pattern: Pattern): Meter | undefined {
  const first = pattern.bars[0]!.meter;
  return pattern.bars.every((bar) => sameMeter(bar.meter, first)) ? first : undefined;
}

/** Converts a length to another unit: half a bar of 4/4 is two beats. */
export function spanIn(unit: Span["unit"], span: Span, meter: Meter): Span {
  if (span.unit === unit) return span;
  return { count: divide(resolveSpan(span, meter), resolveSpan({ count: ONE, unit }, meter)), unit };
}
