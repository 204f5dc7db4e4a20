import { random } from "../../lib/base/index.js";
import type { Finding, Score, Take } from "../../lib/schema/index.js";

export interface Plain {
  /** Seconds; 0.5 when left out. */
  readonly beat?: number;
  /** Notes on every beat; 1 when left out. */
  readonly perBeat?: number;
  /** Beats that sound before each silence; 12 when left out. */
  readonly accompanied?: number;
  /** Beats of silence; 4 when left out. */
  readonly silent?: number;
  /** How often the two alternate; 4 when left out. */
  readonly phrases?: number;
  /** Beats that sound after the last silence; 4 when left out, and 0 means that the accompaniment does not return. */
  readonly outro?: number;
  readonly tolerance?: Score["tolerance"];
}

/** Even notes in 4/4 over an accompaniment that falls silent at the end of each phrase, with a count-in of a bar. */
export function plainScore(plain: Plain = {}): Score {
  const { beat = 0.5, perBeat = 1, accompanied = 12, silent = 4, phrases = 4, outro = 4 } = plain;
  const phrase = accompanied + silent;
  const beats = phrases * phrase + outro;
  const expected = Array.from({ length: beats * perBeat }, (_, i) => {
    const at = i / perBeat;
    return { position: `${i}/${4 * perBeat}`, at: at * beat, part: "lead", bar: 1 + Math.floor(at / 4) };
  });
  const count = silent === 0 ? 0 : phrases;
  const dropouts = Array.from({ length: count }, (_, i) => {
    const to = (i + 1) * phrase * beat;
    const returns = i + 1 < phrases || outro > 0;
    return { from: to - silent * beat, to, parts: ["kit"], silent: true, landing: returns ? to : null };
  });
  const edges = [-4 * beat, ...dropouts.flatMap(({ from, to }) => [from, to]), beats * beat];
  const audible = Array.from({ length: edges.length / 2 }, (_, i) => ({ from: edges[2 * i]!, to: edges[2 * i + 1]! }));
  return {
    version: 1,
    drill: "jetty",
    rung: `silence=${silent} beats`,
    mix: "alone",
    duration: beats * beat,
    countIn: 4 * beat,
    beat,
    bars: Array.from({ length: Math.ceil(beats / 4) }, (_, i) => ({
      bar: i + 1,
      position: `${i}`,
      at: 4 * i * beat,
      meter: "4/4",
      phrase: 1 + Math.floor((4 * i) / phrase),
    })),
    expected,
    dropouts,
    audible: audible.filter(({ from, to }) => to > from),
    open: [],
    parts: [],
    tolerance: plain.tolerance ?? { driftPercent: 2.5 },
  };
}

/** A take that plays every note where a warp of time puts it; seconds, zero at bar 1. */
export function takeOf(score: Score, warp: (at: number) => number = (at) => at): Take {
  return { onsets: score.expected.map(({ at }) => warp(at)), zero: "bar-1" };
}

// Share of the lateness a player takes back on each beat that sounds; within the usual range (VALUES 1.4 and 1.5), our choice.
const CORRECTION = 0.35;

/**
 * Lateness, in seconds, of a player who is slower by a share of tempo in every silence (positive: slower), and who takes a share of it back on
 * every beat from the landing on, which itself is still unguided.
 */
export function slowerInSilence(score: Score, share: number): (at: number) => number {
  return (at) => {
    let late = 0;
    score.dropouts.forEach(({ from, to }, index) => {
      if (at <= from) return;
      late += share * (Math.min(at, to) - from);
      const until = Math.min(at, score.dropouts[index + 1]?.from ?? Number.POSITIVE_INFINITY);
      const beats = Math.max(0, Math.ceil((until - to) / score.beat - 1e-6));
      late *= (1 - CORRECTION) ** beats;
    });
    return at + late;
  };
}

/** The same take with normal deviations of this standard deviation, ms. */
export function scatteredBy(take: Take, sdMs: number, seed: number | string): Take {
  const chance = random(seed);
  return { ...take, onsets: timesOf(take).map((at) => at + (sdMs / 1000) * chance.normal()) };
}

export function timesOf(take: Take): number[] {
  return take.onsets.map((onset) => (typeof onset === "number" ? onset : onset.at));
}

export function movedBy(take: Take, seconds: number): Take {
  return { ...take, onsets: timesOf(take).map((at) => at + seconds) };
}

/** The drifts of a finding, ms; fails on one that is unmeasured. */
export function driftsOf(finding: Finding): { driftMs: number; driftPercent: number; standardErrorMs: number }[] {
  return finding.dropouts.map(({ driftMs, driftPercent, standardErrorMs }) => {
    if (typeof driftMs !== "number" || typeof driftPercent !== "number" || typeof standardErrorMs !== "number") {
      throw new Error(`a drift is unmeasured: ${JSON.stringify(driftMs)}`);
    }
    return { driftMs, driftPercent, standardErrorMs };
  });
}
