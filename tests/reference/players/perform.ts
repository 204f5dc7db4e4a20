import type { PlayedOnset, Score, Take } from "../../../lib/schema/index.js";
import { GRADES, type Grade, type Temper } from "./grades.js";
import type { Law } from "./laws/law.js";
import { type Luck, luckOf, normals } from "./luck.js";
import { type Habit, type Plan, planOf } from "./plan.js";
import type { Recording } from "./recording.js";
import { type Stage, stageOf } from "./stage.js";

/** A simulated player: a law of timing, how unsteady, and habits in the order in which they are taken up. */
export interface Player {
  readonly law: Law;
  readonly temper: Temper | Grade;
  /** Degrees of freedom of Student's t when the hand has heavy tails; the temper's hand is then its scale. A normal hand when left out. */
  readonly tail?: number;
  readonly habits?: readonly Habit[];
  readonly recording?: Recording;
}

/**
 * What truly happened in one silence. Milliseconds, positive late.
 */
export interface SilenceTruth {
  /**
   * Drift: how much later the player's own pulse is at the return of the accompaniment than at the start of the silence, before he answers what he hears
   * then. The place in the music counts: a slip made in the silence or at its landing is in it; one that was there before is not. A landing from which the
   * player has to find back counts as his pulse; a landing note that alone is off does not, nor does the hand.
   */
  readonly driftMs: number;
  /**
   * Landing: how much later than written the note expected at the return sounded, his usual place taken off. Pulse, hand, slips old and new, and what that note
   * alone is off all count. For a note left out: where it would have sounded. Undefined when no note is expected at the return.
   */
  readonly landingMs: number | undefined;
  readonly landingPlayed: boolean;
  /** Change of place in the music, beats: positive when the player waited. */
  readonly slipBeats: number;
  /** What the landing note alone is off because of a habit; it is in `landingMs`. */
  readonly aloneMs: number;
}

export interface Performance {
  readonly take: Take;
  readonly truths: readonly SilenceTruth[];
  readonly stage: Stage;
  /** Where a note of his falls while he is in time, seconds: the player's habit and the delay of the recording. */
  readonly usual: number;
  /** When each expected note sounded; NaN when it was left out. Seconds from bar 1, in the recording. */
  readonly sounded: Float64Array;
  /** How far the pulse, slips aside, ever was from the beat, seconds. */
  readonly furthest: number;
}

/** Habitual place against the beat: mean and deviation among players, seconds; our choice, tapping leads by 20 to 70 ms (from memory). */
const USUAL = { mean: -0.025, deviation: 0.015 } as const;

/**
 * One take of a player on a score, by the luck of `address` (player, material and take). The same address gives the same timing whatever the habits.
 *
 * @example
 * const { take, truths } = perform(score, { law: phaseCorrection, temper: "able", habits: [misses(3)] }, ["tern", "sevens", 4]);
 */
export function perform(score: Score, player: Player, address: readonly (string | number)[]): Performance {
  const luck = luckOf(...address);
  const stage = stageOf(score);
  const temper = temperOf(player);
  const tails = tailsOf(player, luck, score.expected.length);
  const { late, hand } = player.law.play(stage, temper, {
    draws: (purpose, count) => {
      const draws = normals(luck, purpose, count);
      return purpose === "hand" ? draws.map((draw, note) => Math.sqrt(tails[note]!) * draw) : draws;
    },
    traits: traitsOf(luck),
  });
  const plan = planOf(score, stage);
  for (const habit of player.habits ?? []) habit.apply(plan, luck);
  const { delay = 0, skew = 0 } = player.recording ?? {};
  const usual = delay + (temper.hand === 0 ? 0 : USUAL.mean + USUAL.deviation * luck("usual place").normal());
  const recorded = (time: number): number => (1 + skew) * (time + usual);
  const pulse = (note: number): number => late[stage.note[note]!]! + plan.slip[note]! + plan.pushed[note]!;
  const off = (note: number): number => pulse(note) + hand[note]! + plan.alone[note]!;
  const sounded = Float64Array.from(score.expected, ({ at }, note) =>
    plan.played[note] === 1 ? recorded(at + off(note)) : Number.NaN,
  );
  const onsets = plan.pitches.flatMap((pitch, note): PlayedOnset[] =>
    plan.played[note] === 0 ? [] : [{ at: sounded[note]!, ...(pitch === undefined ? {} : { pitch }) }],
  );
  const extras = plan.extras.map((extra): PlayedOnset => {
    const time = "at" in extra ? extra.at : score.expected[extra.by]!.at + off(extra.by) + extra.after;
    return { at: recorded(time), pitch: extra.pitch };
  });
  const take: Take = {
    id: address.join("/"),
    zero: "bar-1",
    onsets: [...onsets, ...extras].sort((a, b) => a.at - b.at),
    drill: score.drill,
    rung: score.rung,
  };
  const furthest = late.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  return { take, truths: truthsOf(plan, late, off), stage, usual, sounded, furthest };
}

/** The same take as a recording without pitch gives it. */
export function withoutPitch(take: Take): Take {
  return { ...take, onsets: take.onsets.map((onset) => (typeof onset === "number" ? onset : onset.at)) };
}

export function temperOf({ temper }: Player): Temper {
  return typeof temper === "string" ? GRADES[temper] : temper;
}

/** What the player with this luck is like. */
export function traitsOf(luck: Luck): (trait: string) => number {
  return (trait) => luck(`trait ${trait}`).uniform();
}

/** Student's t is a normal number over the root of a mean of squares of as many others (Student 1908). */
function tailsOf({ tail }: Player, luck: Luck, count: number): Float64Array {
  if (tail === undefined) return new Float64Array(count).fill(1);
  const draws = normals(luck, "tails", tail * count);
  return Float64Array.from({ length: count }, (_, note) => {
    const squares = draws.subarray(tail * note, tail * (note + 1)).reduce((sum, draw) => sum + draw * draw, 0);
    return tail / squares;
  });
}

function truthsOf(
  { stage, silences, played, alone }: Plan,
  late: Float64Array,
  off: (note: number) => number,
): SilenceTruth[] {
  return stage.silences.map(({ from, to, landing }, index) => {
    const { slipAtStart, slipAtReturn, pushedAtReturn } = silences[index]!;
    return {
      driftMs: 1000 * (late[to]! - late[from]! + slipAtReturn - slipAtStart + pushedAtReturn),
      landingMs: landing < 0 ? undefined : 1000 * off(landing),
      landingPlayed: landing >= 0 && played[landing] === 1,
      slipBeats: (slipAtReturn - slipAtStart) / stage.beat,
      aloneMs: landing < 0 ? 0 : 1000 * alone[landing]!,
    };
  });
}
