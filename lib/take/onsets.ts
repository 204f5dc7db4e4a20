import type { Score, Take } from "../schema/index.js";

/** A take's onsets in order of time, on the score's clock, known latency taken off. */
export interface PlayedOnsets {
  /** Milliseconds from the downbeat of bar 1, ascending. */
  readonly at: Float64Array;
  /** Index of each in the take as given. */
  readonly given: Int32Array;
  /** Pitch as MIDI number, NaN where unknown. */
  readonly pitch: Float64Array;
  /** 0-127, NaN where unknown. */
  readonly velocity: Float64Array;
}

export function playedOnsets(score: Score, take: Take): PlayedOnsets {
  const start = ((take.zero ?? "count-in") === "count-in" ? score.countIn : 0) + (take.latencyMs ?? 0) / 1000;
  const count = take.onsets.length;
  const given = new Int32Array(count);
  const times = new Float64Array(count);
  let sorted = true;
  for (let i = 0; i < count; i++) {
    const onset = take.onsets[i]!;
    given[i] = i;
    times[i] = ((typeof onset === "number" ? onset : onset.at) - start) * 1000;
    sorted &&= i === 0 || times[i - 1]! <= times[i]!;
  }
  if (!sorted) given.sort((a, b) => times[a]! - times[b]! || a - b);
  const pitch = new Float64Array(count).fill(Number.NaN);
  const velocity = new Float64Array(count).fill(Number.NaN);
  for (let k = 0; k < count; k++) {
    const onset = take.onsets[given[k]!]!;
    if (typeof onset === "number") continue;
    if (onset.pitch !== undefined) pitch[k] = keyNumber(onset.pitch);
    if (onset.velocity !== undefined) velocity[k] = onset.velocity;
  }
  return { at: sorted ? times : Float64Array.from(given, (i) => times[i]!), given, pitch, velocity };
}

// Standard error of a latency that is given without one, ms: the deviation allowed to an instrument (3 ms: Jack et al. 2018).
const LATENCY_STANDARD_ERROR_MS = 3;

/** How well a given latency is known, ms; `undefined` when none is given. */
export function latencyStandardErrorOf(take: Pick<Take, "latencyMs" | "latencyStandardErrorMs">): number | undefined {
  return take.latencyMs === undefined ? undefined : (take.latencyStandardErrorMs ?? LATENCY_STANDARD_ERROR_MS);
}

const ABOVE_C: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** MIDI key number of a pitch name or number (C4 = 60); NaN when there is none or the name is not one. */
export function keyNumber(pitch: string | number | undefined): number {
  if (typeof pitch === "number") return pitch;
  if (pitch === undefined) return Number.NaN;
  const known = KNOWN.get(pitch);
  if (known !== undefined) return known;
  const number = numberOf(pitch);
  // Names come from files, and there are a few dozen in earnest.
  if (KNOWN.size < MOST_KNOWN) KNOWN.set(pitch, number);
  return number;
}

/** Names met before: a take asks for the same few again and again. */
const KNOWN = new Map<string, number>();
const MOST_KNOWN = 500;

function numberOf(pitch: string): number {
  const match = /^([A-Ga-g])([b#♭♯]*)(-?\d{1,2})$/.exec(pitch);
  if (!match) return Number.NaN;
  let alter = 0;
  for (const sign of match[2]!) alter += sign === "#" || sign === "♯" ? 1 : -1;
  return 12 * (Number(match[3]) + 1) + ABOVE_C[match[1]!.toUpperCase()]! + alter;
}
