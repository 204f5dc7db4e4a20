import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { playersOnsets } from "../../lib/listen/playersOnsets.js";
import { soundTakeOf } from "../../lib/listen/soundTakeOf.js";
import type { Score } from "../../lib/schema/index.js";

const BEAT = 0.5;
const NAMES = ["D4", "G4", "A4", "Bb4"];
const KEYS = [62, 67, 69, 70];
const expected = Array.from({ length: 40 }, (_, i) => ({
  position: "0",
  at: i * BEAT,
  part: "lead",
  bar: 1 + (i >> 2),
  pitch: NAMES[i % 4]!,
}));
const score = { expected, beat: BEAT, countIn: 2, duration: 20, bars: [] } as unknown as Score;

/** The riff as played, then so many other sounds, so many decibels weaker. */
function mixture(others: number, below: number, seed: number) {
  const chance = random(seed);
  const player = expected.map(({ at }, i) => ({
    onset: {
      seconds: at + 0.02 * chance.normal(),
      velocity: 80 + chance.below(40),
      strength: 8 + 4 * chance.uniform(),
    },
    pitch: KEYS[i % 4]!,
  }));
  const rest = Array.from({ length: others }, () => ({
    onset: {
      seconds: chance.uniform() * 40 * BEAT,
      velocity: Math.max(1, Math.round((60 + chance.below(60)) * 10 ** (-below / 40))),
      strength: 1 + 3 * chance.uniform(),
    },
    pitch: chance.uniform() < 0.5 ? undefined : 40 + 30 * chance.uniform(),
  }));
  const all = [...player, ...rest];
  const kept = playersOnsets(
    all.map(({ onset }) => onset),
    all.map(({ pitch }) => pitch),
    score,
  );
  return { all, player: kept.filter((index) => index < 40).length, other: kept.filter((index) => index >= 40).length };
}

describe("which onsets are the player's", () => {
  test("nothing is left out where hardly more begins than the riff has notes", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 12 }), fc.integer(), (others, seed) => {
        const { player, other } = mixture(others, 30, seed);
        expect([player, other]).toEqual([40, others]);
      }),
    );
  });

  test("many weaker sounds are told from the riff", () => {
    fc.assert(
      fc.property(fc.integer({ min: 60, max: 240 }), fc.integer(), (others, seed) => {
        const { player, other } = mixture(others, 18, seed);
        expect(player).toBeGreaterThanOrEqual(38);
        expect(other / others).toBeLessThan(0.05);
      }),
      { numRuns: 40 },
    );
  });

  test("nothing is left out when no class is louder than the other", () => {
    const chance = random(11);
    const onsets = Array.from({ length: 200 }, () => ({ seconds: 20 * chance.uniform(), velocity: 90, strength: 5 }));
    expect(playersOnsets(onsets, Array(200).fill(undefined), score)).toHaveLength(200);
  });

  test("nothing stays nothing", () => {
    expect(playersOnsets([], [], score)).toEqual([]);
  });
});

test("a take leaves them out and says so: OTHER_SOUNDS", () => {
  const { all } = mixture(120, 18, 5);
  const sorted = [...all].sort((a, b) => a.onset.seconds - b.onset.seconds);
  const onsets = sorted.map(({ onset: { seconds, ...onset } }) => ({ ...onset, at: seconds + 3, noiseMs: 2 }));
  const heard = { onsets, noiseMs: 9, seconds: 30 };
  const pitches = sorted.map(({ pitch }) => pitch);
  const made = soundTakeOf(
    { heard, pitches, undecidable: [], place: undefined, bleedDb: undefined },
    { score, place: undefined, start: 1 },
  );
  expect(made.ok && made.advice.map(({ code }) => code)).toEqual(["OTHER_SOUNDS"]);
  expect(made.ok && made.value.take.onsets.length + made.value.others).toBe(160);
  expect(made.ok && made.value.others).toBeGreaterThan(110);
  // Its timing noise is that of the notes that are left.
  expect(made.ok && made.value.take.motorFloorMs).toBeCloseTo(2, 9);
});
