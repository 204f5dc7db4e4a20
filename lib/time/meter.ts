import { type Fraction, failure, fraction, success } from "../base/index.js";
import { problem } from "./codes.js";
import type { Meter } from "./model.js";
import type { Problem, Result } from "./problem.js";
import { quoted } from "./quoted.js";
import { sayOfMeter } from "./say.js";

/** Our choice: larger than any printed meter, and bars of a hostile file stay short. */
const LARGEST_UPPER = 64;
/** Our choice: a sixty-fourth note is the shortest value in note lines. */
const LARGEST_LOWER = 64;

/**
 * Reads a meter: "4/4", "12/8", "2+2+3/8".
 *
 * Upper numbers 6, 9, 12, ... are compound: beats of three. Upper numbers 5, 7, 8, 10, 11, ... over eighths or shorter notes are grouped by
 * custom: 5 = 3+2, 7 = 2+2+3, others threes before twos (common practice, no source). Write the groups for another grouping.
 * Problems: METER_NOT_READ, METER_LOWER_NOT_POWER_OF_TWO, METER_UPPER_OUT_OF_RANGE.
 * @example parseMeter("6/8") // { ok: true, value: { kind: "compound", groups: [3, 3], lower: 8 }, ... }
 */
export function parseMeter(text: string): Result<Meter> {
  const match = /^(\d{1,9}(?:\s*\+\s*\d{1,9})*)\s*\/\s*(\d{1,9})$/.exec(text.trim());
  if (!match) {
    const message = sayOfMeter("meter-problem.meter-not-read", { found: quoted(text) });
    const meant = meterMeant(text);
    const remedy =
      meant === undefined
        ? sayOfMeter("meter-problem.write-for-instance", { example: "4/4" })
        : sayOfMeter("meter-problem.write", { text: meant });
    return failure(problem("METER_NOT_READ", message, {}, remedy));
  }
  const groups = match[1]!.split("+").map(Number);
  const lower = Number(match[2]);
  const problems = [...lowerProblems(lower, match), ...upperProblems(groups, match[1]!)];
  return problems.length > 0 ? { ok: false, problems } : success(meterOf(groups, lower));
}

/** Names of meters beside their numbers: the signs C and cut C are common time and cut time. */
const NAMED: Readonly<Record<string, string>> = {
  c: "4/4",
  common: "4/4",
  "common time": "4/4",
  "cut c": "2/2",
  "c|": "2/2",
  "¢": "2/2",
  cut: "2/2",
  "cut time": "2/2",
  "alla breve": "2/2",
  waltz: "3/4",
  "waltz time": "3/4",
};
const NUMBERS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/** The meter that another spelling was meant for: "C" is 4/4, "3-4" and "three four" are 3/4; `undefined` when it is none. */
function meterMeant(text: string): string | undefined {
  const plain = text.trim().toLowerCase();
  if (Object.hasOwn(NAMED, plain)) return NAMED[plain];
  const [upper, lower, ...more] = plain.split(/[\s:.,\\-]+/).map((word) => {
    const named = NUMBERS.indexOf(word) + 1;
    return named > 0 ? named : /^\d{1,2}$/.test(word) ? Number(word) : undefined;
  });
  return upper === undefined || lower === undefined || more.length > 0 ? undefined : `${upper}/${lower}`;
}

/** The meter with these groups of `1/lower` notes. A single group is grouped by custom. */
export function meterOf(groups: readonly number[], lower: number): Meter {
  if (groups.length > 1) return { kind: isCompound(groups) ? "compound" : "additive", groups, lower };
  const upper = groups[0]!;
  if (upper > 3 && upper % 3 === 0) return { kind: "compound", groups: new Array<number>(upper / 3).fill(3), lower };
  // Over 1, 2 and 4 the lower number is the beat: 5/4 has five beats. Shorter notes are counted in groups.
  if (lower < 8 || upper < 5) return { kind: "simple", groups, lower };
  return { kind: "additive", groups: customaryGroups(upper), lower };
}

/**
 * "4/4", "12/8", "2+2+3/8": the canonical text, read back by `parseMeter`.
 *
 * @example
 * meterText(parseMeter("2+2+3/8").value) // "2+2+3/8"
 */
export function meterText(meter: Meter): string {
  const upper = meter.kind === "additive" ? meter.groups.join("+") : total(meter.groups);
  return `${upper}/${meter.lower}`;
}

/** The length of a bar in whole notes: 1 in 4/4, 7/8 in 7/8. */
export function barLength(meter: Meter): Fraction {
  return fraction(total(meter.groups), meter.lower);
}

/** The conventional beat in whole notes: 1/4 in 4/4, 3/8 in 6/8, 1/8 in 7/8. */
export function beatOf(meter: Meter): Fraction {
  return fraction(meter.kind === "compound" ? 3 : 1, meter.lower);
}

/** Whether two meters have the same groups of the same note. */
export function sameMeter(a: Meter, b: Meter): boolean {
  return meterText(a) === meterText(b);
}

function customaryGroups(upper: number): number[] {
  if (upper === 7) return [2, 2, 3];
  const twos = upper % 3 === 1 ? 2 : 1;
  return [...new Array<number>((upper - 2 * twos) / 3).fill(3), ...new Array<number>(twos).fill(2)];
}

function isCompound(groups: readonly number[]): boolean {
  return groups.every((size) => size === 3);
}

function lowerProblems(lower: number, [, upper, written = ""]: RegExpMatchArray): Problem[] {
  if (lower >= 1 && lower <= LARGEST_LOWER && Number.isInteger(Math.log2(lower))) return [];
  const message = sayOfMeter("meter-problem.meter-lower-not-power-of-two", { found: written });
  const near = 2 ** Math.min(6, Math.max(0, Math.round(Math.log2(Math.max(1, lower)))));
  const remedy = sayOfMeter("meter-problem.write", { text: `${upper}/${near}` });
  return [problem("METER_LOWER_NOT_POWER_OF_TWO", message, {}, remedy)];
}

function upperProblems(groups: readonly number[], written: string): Problem[] {
  if (groups.every((size) => size >= 1) && total(groups) <= LARGEST_UPPER) return [];
  const message = sayOfMeter("meter-problem.meter-upper-out-of-range", { most: LARGEST_UPPER, found: written });
  const remedy = sayOfMeter("meter-problem.meter-upper-out-of-range-remedy", { most: LARGEST_UPPER });
  return [problem("METER_UPPER_OUT_OF_RANGE", message, {}, remedy)];
}

function total(groups: readonly number[]): number {
  return groups.reduce((sum, size) => sum + size, 0);
}
