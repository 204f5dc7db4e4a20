import { beatAt, beatsBetween, meanBeat, type Random, random } from "../base/index.js";
import type { Score, Take } from "../schema/index.js";
import { type Habits, habitsOn } from "./habits.js";

/**
 * A simulated player: linear phase correction while something sounds, a free-running clock in the silence.
 *
 * Model: Vorberg & Schulze 2002, J. Math. Psychol. 46, 56-87 (from memory; its variances are checked in the tests):
 * A(n+1) = (1 - correction) A(n) + clock noise + M(n+1) - M(n) on the beats that sound, and without correction where nothing does.
 */
export interface Player {
  /** Standard deviation of the clock, milliseconds per square root of a beat. */
  readonly clockMs: number;
  /** Standard deviation of the motor delay, milliseconds per note. */
  readonly motorMs: number;
  /** Standard deviation of the tempo bias drawn for each silence, per cent of tempo. */
  readonly biasPercent: number;
  /** Mean of that bias, per cent of tempo: positive drags, negative rushes; 0 when left out. */
  readonly leanPercent?: number;
  /** Share of the asynchrony taken back on each beat that sounds, 0 to 1. */
  readonly correction: number;
  /** Constant offset: habitual lead and the latency of the recording together, milliseconds. */
  readonly offsetMs: number;
  /** Chance that an expected note is left out. */
  readonly missing: number;
  /** Notes added anywhere, as a share of the expected ones. */
  readonly adding: number;
  readonly habits?: Habits;
}

/** Ground truth of a simulated take. */
export interface PlayedTruth {
  /** [expected index, onset index] of every note played. */
  readonly pairs: readonly (readonly [number, number])[];
  /** Change of the player's phase over each dropout, milliseconds, a slip in it or at its landing included. */
  readonly driftMs: readonly number[];
  /** The slip in each dropout or at its landing, beats: positive when the player waited; 0 without one. */
  readonly slipBeats: readonly number[];
  /** The tempo bias drawn for each dropout, per cent. */
  readonly biasPercent: readonly number[];
}

export interface PlayedTake {
  readonly take: Take;
  readonly truth: PlayedTruth;
}

/** Players of four grades of steadiness. Our choice: they span the published range (motor SD 5-12 ms, interval CV 2-5 %). */
export const PLAYERS: Readonly<Record<"seasoned" | "able" | "novice" | "wild", Player>> = {
  seasoned: grade(5, 6, 0.4),
  able: grade(10, 12, 1.2),
  novice: grade(20, 22, 3),
  wild: grade(40, 44, 6),
};

function grade(clockMs: number, motorMs: number, biasPercent: number): Player {
  return { clockMs, motorMs, biasPercent, correction: 0.35, offsetMs: -20, missing: 0.03, adding: 0.03 };
}

/** Something that happens to the player at a time (ms). */
interface Moment {
  readonly at: number;
  readonly order: number;
  readonly happens: "dropout starts" | "note" | "own note" | "dropout ends" | "beat";
  readonly index: number;
}

/**
 * Simulated take of `score` by `player`, with its ground truth. In bars to improvise in, a note falls on every other place of their subdivision. The same seed gives the same take.
 *
 * @example
 * assess(score, playTake(score, PLAYERS.seasoned, 7).take).verdict // "within"
 */
export function playTake(score: Score, player: Player, seed: number | string): PlayedTake {
  const chance = random(seed);
  const habits = habitsOn(score, player.habits ?? {}, seed);
  const beatMs = 1000 * meanBeat(score, score.duration);
  const played: { readonly at: number; readonly expected: number }[] = [];
  const driftMs: number[] = [];
  const biasPercent: number[] = [];
  let phase = stationaryPhase(player, chance);
  let bias = 0;
  let phaseAtStart = 0;
  let heard = { at: Number.NaN, motor: 0 };
  const moments = momentsOf(score);
  let before = moments[0]?.at ?? 0;
  for (const moment of moments) {
    const gap = moment.at - before;
    phase += bias * gap + player.clockMs * Math.sqrt(gap / beatMs) * chance.normal();
    before = moment.at;
    if (moment.happens === "dropout starts") {
      phaseAtStart = phase;
      const drawn = ((player.leanPercent ?? 0) + player.biasPercent * chance.normal()) / 100;
      bias = score.dropouts[moment.index]!.silent ? drawn : 0;
      biasPercent.push(100 * bias);
    } else if (moment.happens === "dropout ends") {
      const slipMs = 1000 * beatAt(score, score.dropouts[moment.index]!.from) * habits.slipBeats[moment.index]!;
      driftMs.push(phase - phaseAtStart + slipMs);
      bias = 0;
    } else if (moment.happens === "note") {
      const motor = habits.wider[moment.index]! * player.motorMs * chance.normal();
      const offPlace = habits.offPlace[moment.index]!;
      if (chance.uniform() < player.missing || Number.isNaN(offPlace)) continue;
      // In his own mind a displaced player is in place: his pulse goes on answering the band.
      heard = { at: moment.at, motor };
      played.push({ at: moment.at + offPlace + phase + motor + player.offsetMs, expected: moment.index });
    } else if (moment.happens === "own note") {
      const motor = player.motorMs * chance.normal();
      if (chance.uniform() < player.missing) continue;
      heard = { at: moment.at, motor };
      played.push({ at: moment.at + phase + motor + player.offsetMs, expected: -1 });
    } else {
      phase -= player.correction * (phase + (heard.at === moment.at ? heard.motor : 0));
    }
  }
  const { onsets, pairs } = withAddedNotes(score, player, played, chance);
  return {
    take: { version: 1, onsets, zero: "bar-1" },
    truth: { pairs, driftMs, slipBeats: habits.slipBeats, biasPercent },
  };
}

/** A draw from the stationary phase of an accompanied player: variance (clock^2 + a^2 motor^2) / (a (2 - a)); 0 without correction. */
function stationaryPhase({ clockMs, motorMs, correction: a }: Player, chance: Random): number {
  if (a <= 0) return 0;
  return Math.sqrt((clockMs ** 2 + a ** 2 * motorMs ** 2) / (a * (2 - a))) * chance.normal();
}

/** All that happens to the player, in order of time. At equal times: a dropout starts, a note falls, a dropout ends, the beat is heard. */
function momentsOf(score: Score): Moment[] {
  const moments: Moment[] = [];
  const push = (at: number, order: number, happens: Moment["happens"], index: number): void => {
    moments.push({ at: Math.round(at * 1e6) / 1e3, order, happens, index });
  };
  score.dropouts.forEach((dropout, index) => {
    push(dropout.from, 0, "dropout starts", index);
    push(dropout.to, 2, "dropout ends", index);
  });
  score.expected.forEach((note, index) => {
    push(note.at, 1, "note", index);
  });
  for (const { from, to, subdivision, grid } of score.open) {
    const places =
      grid ?? Array.from({ length: Math.round((to - from) / subdivision) }, (_, k) => from + k * subdivision);
    for (const at of places.filter((_, k) => k % 2 === 0)) push(at, 1, "own note", -1);
  }
  for (const { from, to } of score.audible)
    beatsBetween(score, Math.max(from, -score.countIn), to).forEach((at, n) => void push(at, 3, "beat", n));
  return moments.sort((a, b) => a.at - b.at || a.order - b.order);
}

/** Onsets in order, with added notes at random times, and which expected notes they are. */
function withAddedNotes(
  score: Score,
  player: Player,
  played: readonly { readonly at: number; readonly expected: number }[],
  chance: Random,
): { onsets: { at: number }[]; pairs: [number, number][] } {
  const all: { at: number; expected: number }[] = [...played];
  for (let i = 0; i < score.expected.length; i++) {
    if (chance.uniform() < player.adding) all.push({ at: chance.uniform() * score.duration * 1000, expected: -1 });
  }
  all.sort((a, b) => a.at - b.at);
  const pairs: [number, number][] = [];
  all.forEach(({ expected }, onset) => {
    if (expected >= 0) pairs.push([expected, onset]);
  });
  pairs.sort((a, b) => a[0] - b[0]);
  return { onsets: all.map(({ at }) => ({ at: at / 1000 })), pairs };
}
