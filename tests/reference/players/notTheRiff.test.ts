import { expect, test } from "vitest";
import { luckOf } from "./luck.js";
import { materials } from "./materials.js";
import { anotherTune, atAnotherTempo, randomOnsets, speech } from "./notTheRiff.js";

const RUNGS = materials();
const times = ({ onsets }: ReturnType<typeof speech>): number[] => onsets.map((onset) => (onset as { at: number }).at);

test("random onsets are as many as the riff's notes in the mean, and lie anywhere", () => {
  for (const { score } of RUNGS) {
    const counts = Array.from({ length: 100 }, (_, take) => times(randomOnsets(score, luckOf(take))).length);
    const mean = counts.reduce((sum, count) => sum + count, 0) / counts.length;
    // A Poisson count has the variance of its mean.
    expect(Math.abs(mean - score.expected.length)).toBeLessThan(4 * Math.sqrt(score.expected.length / 100));
  }
});

test("speech has 3 to 6 syllables a second within phrases, and pauses", () => {
  for (let talker = 0; talker < 50; talker++) {
    const at = times(speech(RUNGS[0]!.score, luckOf(talker)));
    const gaps = at
      .slice(1)
      .map((time, i) => time - at[i]!)
      .sort((a, b) => a - b);
    const middle = gaps[gaps.length >> 1]!;
    expect(1 / middle).toBeGreaterThan(2.5);
    expect(1 / middle).toBeLessThan(7);
    expect(gaps.at(-1)).toBeGreaterThan(0.6);
  }
});

test("another tune keeps style and density and is another tune", () => {
  for (const { score } of RUNGS) {
    const tunes = Array.from({ length: 30 }, (_, take) => anotherTune(score, luckOf(take)));
    const mean = tunes.reduce((sum, { expected }) => sum + expected.length, 0) / tunes.length;
    expect(Math.abs(mean / score.expected.length - 1)).toBeLessThan(0.15);
    const places = (each: typeof score): Set<string> =>
      new Set(each.expected.map(({ at, bar }) => (at - each.bars[bar - 1]!.at).toFixed(4)));
    for (const tune of tunes) {
      for (const place of places(tune)) expect(places(score)).toContain(place);
      expect(tune.expected.map(({ pitch }) => pitch)).not.toEqual(score.expected.map(({ pitch }) => pitch));
    }
  }
});

test("at another tempo every note, bar and silence is stretched alike", () => {
  for (const { score } of RUNGS) {
    const slower = atAnotherTempo(score, 1.25);
    slower.expected.forEach(({ at }, note) => {
      expect(at).toBeCloseTo(1.25 * score.expected[note]!.at, 12);
    });
    expect(slower.dropouts.map(({ from, to }) => to - from)).toEqual(
      score.dropouts.map(({ from, to }) => 1.25 * to - 1.25 * from),
    );
    expect(slower.duration).toBe(1.25 * score.duration);
  }
});
