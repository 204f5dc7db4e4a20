import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseMidi } from "midi-file";
import type { Score, Take } from "../../../lib/schema/index.js";

/**
 * Real drummers to a click: takes of the Groove MIDI Dataset 1.0 (Gillick et al. 2019, CC BY 4.0), read in place and never copied. The click never stopped, so a
 * drift over any stretch declared silent is all but none, and what is moved is known.
 */
export interface DrumTake {
  readonly name: string;
  readonly score: Score;
  /** Onsets, seconds from bar 1. */
  readonly onsets: readonly number[];
  /** For each silence of the score: indices of the onsets that are the hit on the downbeat of its return. */
  readonly landings: readonly (readonly number[])[];
}

const FOLDER = join("..", "shared", "reference", "groove");
/** Softer hits are ghost strokes and left out: our choice, of 127. */
const LOUD = 30;
/** Hits nearer than this are one onset, seconds: drums struck together. */
const TOGETHER = 0.03;
/** A take counts as straight when the deviation of its hits about the sixteenths is below this, seconds: our choice; at random it would be about 43 ms at 100 bpm. */
const STRAIGHT = 0.025;
const FEWEST_BARS = 12;
const SLOTS = 16;
const PHRASE = 4;
/** Tolerances of the half-bar and one-bar drills of the first course. */
const TOLERANCE = { driftPercent: 6, landingMs: 90 } as const;

/** Straight takes in common time of twelve bars or more, in order of name; undefined when the data is not there. */
export function drumTakes(): readonly DrumTake[] | undefined {
  if (!existsSync(FOLDER)) return undefined;
  const files = readdirSync(FOLDER, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith("_beat_4-4.mid"))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  return files.flatMap((file) => {
    const take = drumTake(file);
    return take === undefined ? [] : [take];
  });
}

/** The take with every landing hit moved by so many milliseconds. */
export function withLandingsMoved({ onsets, landings }: DrumTake, ms: number): Take {
  const moved = new Set(landings.flat());
  return {
    zero: "bar-1",
    onsets: onsets.map((at, index) => (moved.has(index) ? at + ms / 1000 : at)).sort((a, b) => a - b),
  };
}

function drumTake(file: string): DrumTake | undefined {
  const { beat, hits } = read(file);
  const slot = beat / 4;
  const deviations = hits.map((at) => at - slot * Math.round(at / slot));
  const middle = median(deviations);
  if (hits.length === 0 || 1.4826 * median(deviations.map((each) => Math.abs(each - middle))) > STRAIGHT)
    return undefined;
  const slots = hits.map((at) => Math.round((at - middle) / slot));
  const bars = Math.floor(Math.max(...slots) / SLOTS) + 1;
  if (bars < FEWEST_BARS) return undefined;
  const expected = [...new Set(slots)]
    .sort((a, b) => a - b)
    .map((place) => ({
      position: `${place}/16`,
      at: place * slot,
      part: "kit",
      bar: Math.floor(place / SLOTS) + 1,
    }));
  const bar = 4 * beat;
  const returns = Array.from({ length: Math.floor((bars - 1) / PHRASE) }, (_, phrase) => (phrase + 1) * PHRASE);
  const landed = returns.flatMap((at) => {
    const indices = [...slots.keys()].filter((index) => slots[index] === at * SLOTS);
    return indices.length === 0 ? [] : [{ at, indices }];
  });
  const dropouts = landed.map(({ at }) => ({
    from: (at - 1) * bar,
    to: at * bar,
    parts: ["click"],
    silent: true,
    landing: at * bar,
  }));
  const edges = [-bar, ...dropouts.flatMap(({ from, to }) => [from, to]), bars * bar];
  const score: Score = {
    version: 1,
    drill: "real drummers",
    rung: "",
    mix: "play",
    duration: bars * bar,
    countIn: bar,
    beat,
    bars: [],
    expected,
    dropouts,
    audible: Array.from({ length: edges.length / 2 }, (_, k) => ({ from: edges[2 * k]!, to: edges[2 * k + 1]! })),
    open: [],
    parts: [],
    tolerance: TOLERANCE,
  };
  return { name: file.slice(FOLDER.length + 1), score, onsets: hits, landings: landed.map(({ indices }) => indices) };
}

/** Length of a beat, seconds, and when loud hits fall, seconds from the first tick. */
function read(file: string): { readonly beat: number; readonly hits: readonly number[] } {
  const { header, tracks } = parseMidi(readFileSync(file));
  const tempi = tracks.flat().filter((event) => event.type === "setTempo");
  const beat = tempi[0]!.microsecondsPerBeat / 1e6;
  const hits: number[] = [];
  for (const track of tracks) {
    let tick = 0;
    for (const event of track) {
      tick += event.deltaTime;
      if (event.type !== "noteOn" || event.velocity < LOUD) continue;
      const at = (beat * tick) / header.ticksPerBeat!;
      if (at - (hits.at(-1) ?? -1) > TOGETHER) hits.push(at);
    }
  }
  return { beat, hits };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}
