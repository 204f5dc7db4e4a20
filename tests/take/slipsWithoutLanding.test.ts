import { describe, expect, test } from "vitest";
import type { PlayedOnset, Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { plainScore, scatteredBy, timesOf } from "./scores.js";

const PITCHES = ["D4", "F4", "G4", "A4", "C5", "E4", "B3"];
const plain = plainScore({ tolerance: { driftPercent: 2.5, landingMs: 100 } });
const score: Score = {
  ...plain,
  expected: plain.expected.map((note, i) => ({ ...note, pitch: PITCHES[i % PITCHES.length]! })),
};
const silence = score.dropouts[1]!;

/** The take of a player who is off by so many beats from a beat of the second silence on, and back a bar after the return; the landing note is left out. */
function slipped(beats: number, fromBeat: number): readonly PlayedOnset[] {
  const { beat, expected } = score;
  const [from, back] = [silence.from + fromBeat * beat, silence.to + 4 * beat];
  const late = beats * beat;
  return expected.flatMap(({ at, pitch }) => {
    const away = at > from - 1e-6 && at < back - 1e-6;
    const landing = Math.abs(at - silence.to) < 1e-6;
    if (landing || (away && at + late > back - 1e-6)) return [];
    const jumped = !away && at + 1e-6 < from && at > from + late - 1e-6;
    return jumped ? [] : [{ at: away ? at + late : at, pitch: pitch! }];
  });
}

describe("a slip by a player who leaves the landing out", () => {
  test.each([
    [0.5, 1],
    [-0.5, 2],
    [1, 2],
    [-1, 2],
    [2, 2],
  ])(
    "by %f beats and back after a bar is told and is beyond: the notes before and after it show where the player was",
    (beats, fromBeat) => {
      const onsets = slipped(beats, fromBeat);
      const scattered = timesOf(scatteredBy({ onsets, zero: "bar-1" }, 5, `slipped by ${beats}`));
      const pitched = onsets.map(({ pitch }, k) => ({ at: scattered[k]!, pitch: pitch! }));
      const found = assess(score, { onsets: pitched, zero: "bar-1" }).dropouts[1]!;
      expect(found).toMatchObject({ verdict: "beyond", slip: { beats: expect.closeTo(beats, 3) } });
      expect(found.landing).toEqual({ leftOut: true });
    },
  );
});
