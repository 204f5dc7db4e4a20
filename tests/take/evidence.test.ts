import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import type { PlayedOnset, Score, Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { keyNumber, playedOnsets } from "../../lib/take/onsets.js";
import { evidenceOf } from "../../lib/take/state/evidence.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { plainScore } from "./scores.js";

const TUNE = ["D4", "F4", "A4", "C5", "G4", "E4", "Bb4"] as const;

function tuneScore(perBeat: number): Score {
  const score = plainScore({ perBeat });
  return { ...score, expected: score.expected.map((note, i) => ({ ...note, pitch: TUNE[i % TUNE.length]! })) };
}

/** Every note played with this standard deviation, in seconds, and with the pitch this makes of the written one. */
function tuneTake(score: Score, sdMs: number, pitchOf: (written: number) => number | undefined): Take {
  const chance = random(`tune ${sdMs}`);
  const onsets = score.expected.map(({ at, pitch }): PlayedOnset => {
    const sounding = pitchOf(keyNumber(pitch));
    return { at: at + (sdMs / 1000) * chance.normal(), ...(sounding === undefined ? {} : { pitch: sounding }) };
  });
  return { onsets, zero: "bar-1" };
}

/** Every note is its own onset; onsets are not in order of time when it is large, so both are compared by index. */
const allPaired = (score: Score): [number, number][] => score.expected.map((_, note) => [note, note]);

describe("pitch as evidence", () => {
  const score = tuneScore(2);

  test.each([
    ["as written", 0],
    ["an octave up", 12],
    ["two octaves down", -24],
    ["a tone up, as written for an instrument in B flat", 2],
    ["a major sixth and an octave up", 21],
  ])("a take %s pairs every note", (_, interval) => {
    const finding = assess(
      score,
      tuneTake(score, 10, (written) => written + interval),
    );
    expect([finding.pairs, finding.missed, finding.added]).toEqual([allPaired(score), [], []]);
    expect(finding.verdict).toBe("within");
  });

  test("a take whose pitches have nothing to do with the tune is read by time alone", () => {
    const chance = random("no tune");
    const take = tuneTake(score, 10, () => 40 + chance.below(40));
    const bare = tuneTake(score, 10, () => undefined);
    expect(assess(score, take).pairs).toEqual(assess(score, bare).pairs);
  });

  test("a few wrong notes are still those notes", () => {
    const take = tuneTake(score, 10, (written) => written);
    const onsets = take.onsets.map((onset, i) => (i % 9 === 4 ? { ...(onset as PlayedOnset), pitch: 61 } : onset));
    expect(assess(score, { ...take, onsets }).pairs).toEqual(allPaired(score));
  });

  test("tells notes apart that time alone leaves unclear", () => {
    const dense = tuneScore(4);
    const bare = assess(
      dense,
      tuneTake(dense, 38, () => undefined),
    );
    expect(bare.reasons.map(({ code }) => code)).toContain("NOTES_TOO_CLOSE");
    for (const { verdict } of bare.dropouts) expect(verdict).toBe("unclear");
    const pitched = assess(
      dense,
      tuneTake(dense, 38, (written) => written),
    );
    expect(pitched.reasons).toEqual([]);
    expect(pitched.pairs.length).toBeGreaterThan(0.9 * dense.expected.length);
    // Neighbours differ in pitch, so that only notes played in each other's order can be taken for another one.
    const own = pitched.pairs.filter(([note, onset]) => note === onset).length;
    expect(own / pitched.pairs.length).toBeGreaterThan(0.99);
    for (const { verdict } of pitched.dropouts) expect(verdict).not.toBe("beyond");
  });

  test("weighs ln(12 x 0.95) for the written pitch class and ln(12 x 0.05 / 11) for another, whatever the octave", () => {
    const take = { ...tuneTake(score, 0, (written) => written + 12), zero: "bar-1" as const };
    const evidence = evidenceOf(score, guideOf(score), playedOnsets(score, take))!;
    expect(evidence(0, 0)).toBeCloseTo(Math.log(12 * 0.95), 12);
    expect(evidence(0, 1)).toBeCloseTo(Math.log((12 * 0.05) / 11), 12);
    expect(evidence(0, TUNE.length)).toBeCloseTo(Math.log(12 * 0.95), 12);
    // Over an addition's twelve equally likely pitch classes the weights are a distribution: they add up to 1.
    expect((Math.exp(evidence(0, 0)) + 11 * Math.exp(evidence(0, 1))) / 12).toBeCloseTo(1, 12);
  });

  test("says nothing where the score or the take knows no pitch", () => {
    const bare = plainScore({ perBeat: 2 });
    const take = tuneTake(score, 0, (written) => written);
    expect(evidenceOf(bare, guideOf(bare), playedOnsets(bare, take))).toBeUndefined();
    const half = { ...take, onsets: take.onsets.map((onset, i) => (i % 2 ? (onset as PlayedOnset).at : onset)) };
    const evidence = evidenceOf(score, guideOf(score), playedOnsets(score, half))!;
    expect(evidence(1, 1)).toBe(0);
    expect(evidence(2, 2)).toBeGreaterThan(0);
  });
});

describe("accents as evidence", () => {
  const plain = plainScore({ perBeat: 2 });
  const score: Score = { ...plain, expected: plain.expected.map((note, i) => ({ ...note, accent: i % 4 === 0 })) };
  const loudness = (i: number): number => (i % 4 === 0 ? 110 : 60) + (i % 3);
  const take = (shift = 0): Take => ({
    onsets: score.expected.map(({ at }, i) => ({ at: at + shift, velocity: loudness(i) })),
    zero: "bar-1",
  });

  test("prefer the loud one of two onsets for an accented note, and the soft one for a plain note", () => {
    for (const note of [8, 9, 24, 27]) {
      const accented = note % 4 === 0;
      const { at } = score.expected[note]!;
      const base = take().onsets as PlayedOnset[];
      // The onset of the wrong loudness lies 4 ms nearer than the right one.
      const onsets = base.flatMap((onset, i) =>
        i === note
          ? [
              { at: at + 0.002, velocity: accented ? 60 : 110 },
              { at: at + 0.006, velocity: accented ? 110 : 60 },
            ]
          : [onset],
      );
      const onsetOf = (finding: ReturnType<typeof assess>): number => finding.pairs.find(([each]) => each === note)![1];
      expect(onsetOf(assess(score, { onsets, zero: "bar-1" })), `note ${note}`).toBe(note + 1);
      const deaf = onsets.map(({ at: when }) => when);
      expect(onsetOf(assess(score, { onsets: deaf, zero: "bar-1" })), `note ${note}, by time`).toBe(note);
    }
  });

  test("weigh half the difference of squared distances, in standard deviations, from the take's mean and from the group's", () => {
    const played = playedOnsets(score, take());
    const evidence = evidenceOf(score, guideOf(score), played)!;
    const all = Array.from(played.velocity);
    const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
    const deviation = Math.sqrt(mean(all.map((v) => (v - mean(all)) ** 2)));
    const loud = mean(all.filter((v) => v > 90));
    const soft = mean(all.filter((v) => v < 90));
    for (const [place, onset] of [
      [0, 0],
      [0, 1],
      [1, 1],
      [1, 4],
    ] as const) {
      const target = place % 4 === 0 ? loud : soft;
      const wanted = (((all[onset]! - mean(all)) / deviation) ** 2 - ((all[onset]! - target) / deviation) ** 2) / 2;
      expect(evidence(place, onset)).toBeCloseTo(wanted, 9);
    }
  });

  test("say nothing of a take that is played evenly, of few notes, or of a score without contrast", () => {
    const even = { ...take(), onsets: take().onsets.map((onset) => ({ ...(onset as PlayedOnset), velocity: 80 })) };
    expect(evidenceOf(score, guideOf(score), playedOnsets(score, even))).toBeUndefined();
    const few = { ...take(), onsets: take().onsets.slice(0, 7) };
    expect(evidenceOf(score, guideOf(score), playedOnsets(score, few))).toBeUndefined();
    expect(evidenceOf(plain, guideOf(plain), playedOnsets(plain, take()))).toBeUndefined();
  });
});
