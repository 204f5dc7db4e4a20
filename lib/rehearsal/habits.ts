import { beatAt, type Random, random } from "../base/index.js";
import type { Score } from "../schema/index.js";

/** What a simulated player does besides keeping time more or less steadily. A habit that is left out is not had. */
export interface Habits {
  /** Comes in elsewhere in the music after a silence, with this chance in each: early (skipped) or late (waited) alike. */
  readonly slips?: {
    readonly chance: number;
    /** Sizes in beats, equally likely; a bar is as many as the meter has. */
    readonly beats: readonly number[];
    readonly at: "in the silence" | "at the landing";
    /** Back with the band at so many bar lines after the return, or where the next silence is a beat away; `null`: never. Slips that are kept add up. */
    readonly backAfterBars: number | null;
    /** Only one way; either when left out. */
    readonly way?: "skips" | "waits";
  };
  /** Chance that the note on which the accompaniment returns is left out, besides `missing`. */
  readonly landingsLeftOut?: number;
  /** Share of the notes whose motor delay is so many times wider. */
  readonly heavyTails?: { readonly share: number; readonly times: number };
}

/** What the habits make of each expected note. */
export interface Played {
  /** How far off the place in the music each note is played, ms, positive late; NaN where the note is left out. */
  readonly offPlace: Float64Array;
  /** How much wider than usual the motor delay of each note is. */
  readonly wider: Float64Array;
  /** Change of place in each dropout and at its landing, beats. */
  readonly slipBeats: readonly number[];
}

// Times in a score are rounded to the nanosecond; seconds.
const SAME = 1e-6;

/**
 * The habits on a score, drawn from streams of their own, one for each purpose: what one habit draws moves nothing of another, nor of the
 * player's time.
 *
 * @param seed names student, drill and take
 */
export function habitsOn(score: Score, habits: Habits, seed: number | string): Played {
  const { expected, dropouts } = score;
  const moves = movesOf(score, habits.slips, random(`${seed}/slips`));
  const regimes: readonly Move[] = [{ from: Number.NEGATIVE_INFINITY, by: 0 }, ...moves];
  const offPlace = new Float64Array(expected.length);
  expected.forEach(({ at }, note) => {
    const now = regimes.findLastIndex(({ from }) => at >= from - SAME);
    const next = regimes[now + 1];
    // What one place of the music leaves no time for before the next begins is not played.
    const over = next !== undefined && at + regimes[now]!.by >= next.from + next.by - SAME;
    offPlace[note] = over ? Number.NaN : 1000 * regimes[now]!.by;
  });
  const leaving = random(`${seed}/landings`);
  for (const { landing } of dropouts) {
    const note = landing === null ? -1 : expected.findIndex(({ at }) => at >= landing - SAME);
    if (habits.landingsLeftOut !== undefined && leaving.uniform() < habits.landingsLeftOut && note >= 0)
      offPlace[note] = Number.NaN;
  }
  const tails = random(`${seed}/tails`);
  const { share = 0, times = 1 } = habits.heavyTails ?? {};
  const wider = Float64Array.from(expected, () => (share > 0 && tails.uniform() < share ? times : 1));
  const inForce = (at: number): number => regimes.findLast(({ from }) => at >= from - SAME)!.by;
  const slipBeats = dropouts.map(({ from, to }) => (inForce(to) - inForce(from - 2 * SAME)) / beatAt(score, from));
  return { offPlace, wider, slipBeats };
}

/** From this place of the score on (seconds) the player is off by so many seconds. */
interface Move {
  readonly from: number;
  readonly by: number;
}

function movesOf(score: Score, slips: Habits["slips"], chance: Random): Move[] {
  if (slips === undefined) return [];
  const moves: Move[] = [];
  let kept = 0;
  score.dropouts.forEach(({ from, to, landing }, index) => {
    const slipped = chance.uniform() < slips.chance;
    const size = slips.beats[chance.below(slips.beats.length)]! * beatAt(score, from);
    const either = chance.uniform() < 0.5;
    const where = chance.uniform();
    // A silence that is shorter than the slip leaves no room for it.
    if (!slipped || landing === null || size > to - from + SAME) return;
    const early = slips.way === undefined ? either : slips.way === "skips";
    const by = kept + (early ? -size : size);
    const inside = score.expected.filter(({ at }) => at >= from + (early ? size : 0) + SAME && at < to - SAME);
    const note = inside[Math.floor(where * inside.length)];
    moves.push({ from: slips.at === "at the landing" || note === undefined ? to : note.at, by });
    if (slips.backAfterBars === null) kept = by;
    else moves.push({ from: backAt(score, index, slips.backAfterBars), by: 0 });
  });
  return moves;
}

function backAt(score: Score, index: number, bars: number): number {
  const { to } = score.dropouts[index]!;
  const line = score.bars.filter(({ at }) => at > to + SAME)[bars - 1]?.at ?? score.duration;
  const next = score.dropouts[index + 1];
  return next === undefined ? line : Math.min(line, next.from - beatAt(score, to));
}
