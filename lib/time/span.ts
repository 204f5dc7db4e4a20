import {
  compare,
  type Fraction,
  failure,
  floor,
  fraction,
  fractionText,
  multiply,
  parseFraction,
  subtract,
  success,
} from "../base/index.js";
import { problem } from "./codes.js";
import { parseDecimal } from "./decimal.js";
import { barLength, beatOf } from "./meter.js";
import type { Meter, Span } from "./model.js";
import type { Problem, Result } from "./problem.js";
import { quoted } from "./quoted.js";
import { say } from "./say.js";

/** Our choice: longer than any take, and small enough for exact arithmetic on hostile input. */
const LONGEST = 10_000;
const UNITS: ReadonlyMap<string, Span["unit"]> = new Map(
  Object.entries({
    bar: "bar",
    bars: "bar",
    beat: "beat",
    beats: "beat",
    note: "note",
    notes: "note",
  } as const),
);

/**
 * Reads a length: "1/2 bar", "1 1/2 bars", "3 beats", "1/8 note" (a note value is a fraction of a whole note).
 *
 * The number is a whole number, a fraction, both, or a decimal. It is above 0 and at most 10,000.
 * Problems: SPAN_NOT_READ, SPAN_UNIT_UNKNOWN, SPAN_NOT_POSITIVE, SPAN_TOO_LONG.
 * @example parseSpan("1/2 bar") // { ok: true, value: { count: { n: 1, d: 2 }, unit: "bar" }, ... }
 */
export function parseSpan(text: string): Result<Span> {
  const span = readSpan(text);
  return span === undefined ? failure(unreadSpan(text)) : success(span);
}

/** The length that a text says, without a word on why it says none; for texts that were read before. */
export function readSpan(text: string): Span | undefined {
  const [, , word, count] = piecesOf(text);
  const unit = word === undefined ? undefined : UNITS.get(word.toLowerCase());
  if (unit === undefined || count === undefined || count.n <= 0) return undefined;
  return compare(count, fraction(LONGEST)) > 0 ? undefined : { count, unit };
}

/** Number and unit of a length as written, and the number read. */
function piecesOf(text: string): readonly [whole?: string, number?: string, unit?: string, count?: Fraction] {
  const match = /^(-?[\d./ ]+?)\s*([a-z]+)$/i.exec(text.trim());
  const count = match ? (parseFraction(match[1]!.trim()) ?? parseDecimal(match[1]!)) : undefined;
  return match && count ? [match[0], match[1]!, match[2]!, count] : [];
}

/** Why a text is no length. */
function unreadSpan(text: string): Problem {
  const [, written = "", word = "", count] = piecesOf(text);
  if (count === undefined) {
    const message = say("time-problem.span-not-read", { found: quoted(text) });
    const meant = spanMeant(text);
    const remedy =
      meant === undefined ? say("time-problem.span-not-read-remedy") : say("time-problem.write", { text: meant });
    return problem("SPAN_NOT_READ", message, {}, remedy);
  }
  if (!UNITS.has(word.toLowerCase())) {
    const message = say("time-problem.span-unit-unknown", { found: quoted(word) });
    // Seconds depend on the tempo: no number of bars is meant by them.
    const remedy = /^(m?s|secs?|seconds?|minutes?|min)$/i.test(word)
      ? say("time-problem.span-not-read-remedy")
      : say("time-problem.write", { text: `${written.trim()} ${unitMeant(word, count)}` });
    return problem("SPAN_UNIT_UNKNOWN", message, {}, remedy);
  }
  if (count.n <= 0) {
    const message = say("time-problem.span-not-positive", { found: written });
    return problem("SPAN_NOT_POSITIVE", message, {}, say("time-problem.span-not-read-remedy"));
  }
  const message = say("time-problem.span-too-long", { most: LONGEST, found: written });
  return problem("SPAN_TOO_LONG", message, {}, say("time-problem.span-too-long-remedy"));
}

/** Counts and units in words that people write, for remedies. */
const COUNTS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    a: "1",
    one: "1",
    half: "1/2",
    "half a": "1/2",
    two: "2",
    three: "3",
    four: "4",
  }),
);
const UNITS_MEANT: ReadonlyMap<string, string> = new Map(
  Object.entries({ measure: "bar", count: "beat", pulse: "beat", b: "bar" }),
);

/** The length that a text in words was meant for: "one bar" is "1 bar"; `undefined` when it is none. */
function spanMeant(text: string): string | undefined {
  const match = /^(half a|\w+) (\w+)$/i.exec(text.trim());
  const count = COUNTS.get(match?.[1]?.toLowerCase() ?? "");
  if (match === null || count === undefined) return undefined;
  return `${count} ${unitMeant(match[2]!, parseFraction(count)!)}`;
}

/** The unit that a word was meant for, in the number that fits: "measures" is "bars". Bars where nothing is known. */
function unitMeant(word: string, count: Fraction): string {
  const one = word.toLowerCase().replace(/s$/, "");
  return `${UNITS.get(one) ?? UNITS_MEANT.get(one) ?? "bar"}${compare(count, fraction(1)) > 0 ? "s" : ""}`;
}

/**
 * The canonical text of a span, read back by `parseSpan`: "1/2 bar", "1 1/2 bars", "3 beats", "1/8 note".
 *
 * @example
 * spanText(parseSpan("1 1/2 bars").value) // "1 1/2 bars"
 */
export function spanText(span: Span): string {
  if (span.unit === "note") return `${span.count.n}/${span.count.d} note`;
  return `${mixedText(span.count)} ${span.unit}${compare(span.count, fraction(1)) > 0 ? "s" : ""}`;
}

/**
 * The length of a span in whole notes under one meter: half a bar of 7/8 is 7/16.
 *
 * @example
 * fraction.text(resolveSpan(parseSpan("1/2 bar").value, parseMeter("7/8").value)) // "7/16"
 */
export function resolveSpan(span: Span, meter: Meter): Fraction {
  if (span.unit === "bar") return multiply(span.count, barLength(meter));
  return span.unit === "beat" ? multiply(span.count, beatOf(meter)) : span.count;
}

function mixedText(count: Fraction): string {
  const whole = floor(count);
  const part = subtract(count, fraction(whole));
  if (part.n === 0 || whole === 0) return fractionText(count);
  return `${whole} ${fractionText(part)}`;
}
