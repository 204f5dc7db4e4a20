import { add, compare, type Fraction, fraction, gcd, multiply, subtract, toNumber, ZERO } from "../base/index.js";
import type { Score } from "../schema/index.js";
import { swungPosition } from "../time/index.js";
import { beatUnitOf, countInOf, exactly, lengthOf, meteredBars, swingOf } from "./scoreTime.js";

/** The resolution, in ticks to a quarter note, is a multiple of this: 480 is divisible by triplets, quintuplets and 128th notes, and every program reads it; common practice. */
const BASE_RESOLUTION = 480;
/** The largest resolution: MusicXML 4.0 asks for at most 16383 divisions to a quarter note in files that are converted to MIDI. */
const FINEST_RESOLUTION = 16383;
/** The resolution when none is exact: the largest multiple of 960 below the limit. */
const ROUNDED_RESOLUTION = 15360;
/** A lead-in is rounded up to a multiple of this note value (1/64). */
const SHORTEST_LEAD = 64;

/** Musical time of a score in whole ticks. */
export interface TickMap {
  /** Ticks to a quarter note: a multiple of 480, at most 16320. */
  readonly perQuarter: number;
  /** Whether every onset and end of the score lies on a tick. */
  readonly isExact: boolean;
  /** The largest rounding error of an onset or end, in ticks: 0 when exact, else 1/2. */
  readonly bound: 0 | 0.5;
  /** Time before the downbeat of bar 1, in whole notes: the count-in, or the pick-up when it is longer. */
  readonly leadIn: Fraction;
  /** Quarter notes per minute, and from which tick on; the first from tick 0. */
  readonly tempi: readonly { readonly ticks: number; readonly quarters: number }[];
  /** Ticks from the start of the lead-in to where a written position sounds, swing included; `late` whole notes later, as the score says of a note of a tuplet. */
  sounding(position: Fraction, late?: string): number;
  /** Ticks from the start of the lead-in to a position that is not swung: a bar line, a click of the count-in. */
  straight(position: Fraction): number;
  /** Seconds from the downbeat of bar 1 to a tick; the lead-in is negative. */
  seconds(ticks: number): number;
}

/**
 * The tick map of a score. Its resolution is the smallest multiple of 480 ticks to a quarter note at which every position is exact, swing included.
 *
 * When that is above 16383 (for example with a swing of 809:500) the resolution is 15360 and positions are rounded, by half a tick at most: 33
 * microseconds at 60 quarter notes per minute. Tick 0 is the start of the lead-in. The time taken is proportional to the number of notes.
 * Throws `RangeError` for a score that does not keep to its schema.
 *
 * @example
 * const ticks = tickMap(score);
 * ticks.sounding(fraction(1, 8)); // with a bar of 4/4 as count-in: 5 * 480 / 2 = 2160 straight, 2240 at a swing of 2:1
 */
export function tickMap(score: Score): TickMap {
  const swing = swingOf(score);
  const bars = meteredBars(score);
  const swung: Sounding = (position, late = "0") => add(swungPosition(position, swing, bars), exactly(late));
  const leadIn = leadInOf(score, swung);
  const needed = resolution(score, { swung, leadIn });
  const perQuarter = needed ?? ROUNDED_RESOLUTION;
  const straight = (position: Fraction): number => nearest(multiply(add(position, leadIn), fraction(4 * perQuarter)));
  const before = toNumber(leadIn) * 4 * perQuarter;
  const tempi = score.tempi?.map(({ position, tempo }, i) => ({
    ticks: i === 0 ? 0 : straight(exactly(position)),
    quarters: quartersIn(score, tempo),
  })) ?? [{ ticks: 0, quarters: quartersIn(score, score.tempo ?? 60 / score.beat) }];
  const seconds = (ticks: number): number => {
    let at = ((Math.min(ticks, tempi[1]?.ticks ?? ticks) - before) * 60) / (perQuarter * tempi[0]!.quarters);
    tempi.slice(1).forEach((tempo, i) => {
      const until = Math.min(ticks, tempi[i + 2]?.ticks ?? ticks);
      if (until > tempo.ticks) at += ((until - tempo.ticks) * 60) / (perQuarter * tempo.quarters);
    });
    return at;
  };
  return {
    perQuarter,
    isExact: needed !== undefined,
    bound: needed === undefined ? 0.5 : 0,
    leadIn,
    tempi,
    sounding: (position, late) => straight(swung(position, late)),
    straight,
    seconds,
  };
}

/** Quarter notes per minute: 90 for a tempo of 60 dotted quarters. */
function quartersIn(score: Score, perMinute: number): number {
  return perMinute * 4 * toNumber(beatUnitOf(score));
}

/** Where a written position sounds, in whole notes, with how late the score has a note of a tuplet. */
type Sounding = (position: Fraction, late?: string) => Fraction;

function leadInOf(score: Score, swung: Sounding): Fraction {
  const earliest = [...score.expected, ...score.parts.flatMap((part) => part.notes)].reduce<Fraction>((least, note) => {
    if (!note.position.startsWith("-")) return least;
    const at = swung(exactly(note.position), note.late);
    return compare(at, least) < 0 ? at : least;
  }, ZERO);
  const counted = countInOf(score);
  const needed = subtract(ZERO, earliest);
  if (compare(needed, counted) <= 0) return counted;
  const units = multiply(needed, fraction(SHORTEST_LEAD));
  return fraction(Math.ceil(toNumber(units)), SHORTEST_LEAD);
}

/** The smallest multiple of 480 ticks at which every onset and end is exact; `undefined` above the limit. */
function resolution(score: Score, { swung, leadIn }: { swung: Sounding; leadIn: Fraction }): number | undefined {
  let ticks = BASE_RESOLUTION;
  const take = (position: Fraction): boolean => {
    const { d } = multiply(position, fraction(4));
    ticks = (ticks / gcd(ticks, d)) * d;
    return ticks <= FINEST_RESOLUTION;
  };
  if (!take(leadIn) || !take(lengthOf(score)) || !take(beatUnitOf(score))) return undefined;
  for (const bar of score.bars) if (!take(exactly(bar.position))) return undefined;
  for (const { position, late } of score.expected) if (!take(swung(exactly(position), late))) return undefined;
  for (const { fromPosition, toPosition } of score.dropouts) {
    for (const edge of [fromPosition, toPosition]) if (edge && !take(swung(exactly(edge)))) return undefined;
  }
  for (const { notes } of score.parts) {
    for (const { position, length, late, endLate } of notes) {
      const from = exactly(position);
      const ends = [swung(from, late), swung(add(from, exactly(length)), endLate)];
      if (!ends.every(take)) return undefined;
    }
  }
  return ticks;
}

/** The nearest whole number, halves up. */
function nearest(value: Fraction): number {
  return Math.floor(toNumber(value) + 0.5);
}
