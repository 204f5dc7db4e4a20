import type { Score } from "../../lib/schema/index.js";

/** Materials of the accuracy table: where the notes of one bar fall, as fractions of the bar. */
export interface Material {
  readonly name: string;
  /** Beats in a bar, possibly of unequal share of the bar. */
  readonly beats: number;
  /** Note positions in each of the four bars, in beats. */
  readonly bars: readonly (readonly number[])[];
  /** Beats per minute are those of this many beats. */
  readonly tempoScale?: number;
}

const every = (step: number, beats = 4): number[] =>
  Array.from({ length: Math.round(beats / step) }, (_, i) => i * step);

export const MATERIALS: readonly Material[] = [
  { name: "quarters", beats: 4, bars: Array(4).fill(every(1)) },
  { name: "eighths", beats: 4, bars: Array(4).fill(every(0.5)) },
  {
    name: "syncopated sixteenths",
    beats: 4,
    bars: [
      [0, 0.75, 1.5, 2.25, 2.5, 3.25],
      [0, 0.25, 0.75, 1.5, 1.75, 2.5, 3.25, 3.75],
      [0, 0.75, 1.5, 2, 2.75, 3.5],
      [0.25, 0.75, 1, 1.75, 2.5, 3, 3.25, 3.75],
    ],
  },
  {
    name: "sparse",
    beats: 4,
    bars: [
      [0, 2.5],
      [0, 3],
      [0, 1.5],
      [0, 2, 3.5],
    ],
  },
  { name: "running sixteenths", beats: 4, bars: Array(4).fill(every(0.25)) },
  {
    name: "seven eight",
    beats: 7,
    tempoScale: 2,
    bars: [
      [0, 2, 4, 5, 6],
      [0, 1, 2, 4, 6],
      [0, 2, 3, 4, 5],
      [0, 2, 4, 6],
    ],
  },
  {
    name: "swung eighths",
    beats: 4,
    bars: Array(4).fill([0, 2 / 3, 1, 1 + 2 / 3, 2, 2 + 2 / 3, 3, 3 + 2 / 3]),
  },
];

/** Phrases of four bars, a silence of `silentBeats` at the end of each, and one bar more so that the last is met. */
export function materialScore(
  material: Material,
  {
    bpm,
    silentBeats,
    tolerancePercent,
    phrases = 4,
  }: { bpm: number; silentBeats: number; tolerancePercent: number; phrases?: number },
): Score {
  const beat = 60 / bpm / (material.tempoScale ?? 1);
  const barBeats = material.beats;
  const expected: Score["expected"][number][] = [];
  for (let bar = 0; bar < 4 * phrases + 1; bar++) {
    for (const position of material.bars[bar % 4]!) {
      expected.push({ position: "0", at: (bar * barBeats + position) * beat, part: "lead", bar: bar + 1 });
    }
  }
  const silence = silentBeats * (material.tempoScale ?? 1);
  const dropouts = Array.from({ length: phrases }, (_, phrase) => {
    const to = (phrase + 1) * 4 * barBeats * beat;
    return { from: to - silence * beat, to, parts: ["kit"], silent: true, landing: to };
  });
  const duration = (4 * phrases + 1) * barBeats * beat;
  const edges = [-barBeats * beat, ...dropouts.flatMap(({ from, to }) => [from, to]), duration];
  const audible = Array.from({ length: edges.length / 2 }, (_, i) => ({ from: edges[2 * i]!, to: edges[2 * i + 1]! }));
  return {
    version: 1,
    drill: material.name,
    rung: `dropout=${silentBeats} beats,tempo=${bpm}`,
    mix: "alone",
    duration,
    countIn: barBeats * beat,
    beat: beat * (material.tempoScale ?? 1),
    bars: [],
    expected,
    dropouts,
    audible,
    open: [],
    parts: [],
    tolerance: { driftPercent: tolerancePercent },
  };
}
