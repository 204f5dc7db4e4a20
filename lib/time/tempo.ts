import {
  compare,
  divide,
  type Fraction,
  failure,
  fraction,
  fractionText,
  multiply,
  parseFraction,
  type Seconds,
  seconds,
  success,
} from "../base/index.js";
import { problem } from "./codes.js";
import { decimalText, parseDecimal } from "./decimal.js";
import type { Tempo } from "./model.js";
import type { Result } from "./problem.js";
import { quoted } from "./quoted.js";
import { say } from "./say.js";

/** Our choice: nobody can follow a beat outside 1 to 1000 beats per minute (synchronisation.ts has the limits of people). */
const SLOWEST = 1;
const FASTEST = 1000;

/**
 * Reads a tempo: "96" (in beats of the meter) or "60 of 3/8" (in dotted quarters). At most six decimals, read exactly.
 *
 * Problems: TEMPO_NOT_READ, TEMPO_OUT_OF_RANGE, BEAT_UNIT_NOT_READ.
 * @example parseTempo("60 of 3/8") // { ok: true, value: { perMinute: { n: 60, d: 1 }, beat: { n: 3, d: 8 } }, ... }
 */
export function parseTempo(written: string | number): Result<Tempo> {
  const text = String(written);
  const match = /^([\d.]+)(?:\s+of\s+(.+))?$/.exec(text.trim());
  const perMinute = match ? parseDecimal(match[1]!) : undefined;
  if (!match || !perMinute) {
    return failure(problem("TEMPO_NOT_READ", say("time-problem.tempo-not-read", { found: quoted(text) })));
  }
  if (isBeyond(perMinute)) {
    const given = { least: SLOWEST, most: FASTEST, found: match[1]! };
    return failure(problem("TEMPO_OUT_OF_RANGE", say("time-problem.tempo-out-of-range", given)));
  }
  if (match[2] === undefined) return success({ perMinute });
  const beat = parseBeatUnit(match[2]);
  return beat.ok ? success({ perMinute, beat: beat.value }) : beat;
}

/** The tempo of a text without a unit of its own, without a word on why it says none; for texts that were read before. */
export function readTempo(text: string): Fraction | undefined {
  const [written] = /^[\d.]+$/.exec(text.trim()) ?? [];
  const perMinute = written === undefined ? undefined : parseDecimal(written);
  return perMinute === undefined || isBeyond(perMinute) ? undefined : perMinute;
}

function isBeyond(perMinute: Fraction): boolean {
  return compare(perMinute, fraction(SLOWEST)) < 0 || compare(perMinute, fraction(FASTEST)) > 0;
}

/** Names of note values in British and American use, for remedies. */
const NOTE_VALUES: ReadonlyMap<string, string> = new Map(
  Object.entries({
    semibreve: "1/1",
    whole: "1/1",
    minim: "1/2",
    half: "1/2",
    "dotted minim": "3/4",
    "dotted half": "3/4",
    crotchet: "1/4",
    quarter: "1/4",
    "dotted crotchet": "3/8",
    "dotted quarter": "3/8",
    quaver: "1/8",
    eighth: "1/8",
    "dotted quaver": "3/16",
    "dotted eighth": "3/16",
    semiquaver: "1/16",
    sixteenth: "1/16",
  }),
);

/** Reads a beat unit: a note value (1/4) or a dotted note value (3/8), as a fraction of a whole note. Problem: BEAT_UNIT_NOT_READ. */
export function parseBeatUnit(text: string): Result<Fraction> {
  const unit = parseFraction(text.replace(/\s*notes?$/, ""));
  const known = unit && (unit.n === 1 || unit.n === 3) && unit.d <= 64 && Number.isInteger(Math.log2(unit.d));
  if (unit && known) return success(unit);
  const meant = NOTE_VALUES.get(text.trim().toLowerCase());
  const remedy =
    meant === undefined ? say("time-problem.beat-unit-not-read-remedy") : say("time-problem.write", { text: meant });
  return failure(
    problem("BEAT_UNIT_NOT_READ", say("time-problem.beat-unit-not-read", { found: quoted(text) }), {}, remedy),
  );
}

/**
 * The canonical text of a tempo, read back by `parseTempo`: "96", "60 of 3/8".
 *
 * @example
 * tempoText(parseTempo("60 of 3/8").value) // "60 of 3/8"
 */
export function tempoText(tempo: Tempo): string {
  const perMinute = decimalText(tempo.perMinute);
  return tempo.beat === undefined ? perMinute : `${perMinute} of ${fractionText(tempo.beat)}`;
}

/** The same tempo in beats of another unit, exact: 60 of 3/8 is 90 of 1/4 and 45 of 1/2. */
export function tempoIn(beat: Fraction, tempo: Required<Tempo>): Required<Tempo> {
  return { perMinute: multiply(tempo.perMinute, divide(tempo.beat, beat)), beat };
}

/** Duration of one beat at a tempo, for any beat unit. */
export function beatSeconds(perMinute: Fraction): Seconds {
  return seconds((60 * perMinute.d) / perMinute.n);
}
