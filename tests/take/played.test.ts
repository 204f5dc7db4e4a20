import { describe, expect, test } from "vitest";
import type { Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { plainScore, scatteredBy, slowerInSilence, takeOf, timesOf } from "./scores.js";

/** Every note outside the silences and each landing; of each silence only these beats. */
function resting(score: Score, beats: readonly number[], seed: string) {
  const onsets = timesOf(takeOf(score)).filter((at) => {
    const inside = score.dropouts.find(({ from, to }) => at > from - 0.01 && at < to - 0.01);
    return inside === undefined || beats.includes(Math.round((at - inside.from) / score.beat));
  });
  return scatteredBy({ onsets, zero: "bar-1" }, 6, seed);
}

const tolerance = { driftPercent: 6, landingMs: 90 };
const four = plainScore({ tolerance });
const five = plainScore({ silent: 5, accompanied: 11, tolerance });

describe("how much of a silence must be played", () => {
  test.each([
    ["1 of 4", four, [0], "You played 4 of 16 notes in 4 silences"],
    ["1 of 5", five, [2], "You played 4 of 20 notes in 4 silences"],
    ["nothing", four, [], "You played 0 of 16 notes in 4 silences"],
  ])("%s, landings played: not within, and told to play on through the silence", (_, score, beats, words) => {
    for (const seed of ["a", "b", "c"]) {
      const { verdict, sentence, dropouts, reasons } = assess(score, resting(score, beats, seed));
      expect(verdict).toBe("unclear");
      expect(sentence).toBe(`${words}: too few to say whether you kept the time. Play on through the silence.`);
      expect(reasons.map(({ code, dropout }) => [code, dropout])).toEqual(dropouts.map((_, k) => ["TOO_FEW_NOTES", k]));
      for (const { played } of dropouts)
        expect(played).toEqual({ notes: beats.length, of: score === five ? 5 : 4, asked: score === five ? 3 : 2 });
    }
  });

  test("half of the notes are enough where the teacher asks for nothing else", () => {
    expect(assess(four, resting(four, [0, 2], "half")).verdict).toBe("within");
    expect(assess(five, resting(five, [1, 2, 3], "three of five")).verdict).toBe("within");
  });

  test.each([
    [3, [1], 2],
    [5, [1, 3], 3],
    [7, [0, 2, 5], 4],
  ])("less than half of an odd number, %i, is not enough", (silent, beats, asked) => {
    const odd = plainScore({ silent, accompanied: 16 - silent, tolerance });
    const { verdict, dropouts } = assess(odd, resting(odd, beats, "less than half"));
    expect(verdict).toBe("unclear");
    expect(dropouts.map(({ played }) => played)).toEqual(
      dropouts.map(() => ({ notes: beats.length, of: silent, asked })),
    );
  });

  test("the teacher's own share is asked for instead", () => {
    const share = (playedShare: number): Score => ({ ...four, tolerance: { ...tolerance, playedShare } });
    expect(assess(share(3 / 4), resting(four, [0, 2], "half")).sentence).toMatch(
      /^You played 8 of 16 notes in 4 silences/,
    );
    expect(assess(share(3 / 4), resting(four, [0, 2, 3], "three")).verdict).toBe("within");
    expect(assess(share(0), resting(four, [], "rests")).verdict).toBe("within");
  });

  test("with every note played a share of the whole is met", () => {
    const whole: Score = { ...four, tolerance: { ...tolerance, playedShare: 1 } };
    expect(assess(whole, resting(whole, [0, 1, 2, 3], "all")).verdict).toBe("within");
    expect(assess(whole, resting(whole, [0, 1, 2], "all but one")).verdict).toBe("unclear");
  });

  test("who plays little of a silence and drifts is beyond all the same", () => {
    const slower = slowerInSilence(four, 0.1);
    const { onsets } = resting(four, [0], "late");
    const { dropouts } = assess(four, { onsets: timesOf({ onsets }).map(slower), zero: "bar-1" });
    expect(dropouts.map(({ verdict }) => verdict)).toEqual(["beyond", "beyond", "beyond", "beyond"]);
  });

  test("a silence that is told alone is told as one", () => {
    const { from, to } = four.dropouts[2]!;
    const onsets = timesOf(takeOf(four)).filter((at) => at < from + 0.1 || at > to - 0.1);
    expect(assess(four, scatteredBy({ onsets, zero: "bar-1" }, 6, "one")).sentence).toMatch(
      /^In silence 3 you played 1 of 4 notes: /,
    );
  });
});
