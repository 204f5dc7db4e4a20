import { describe, expect, test } from "vitest";
import { judge } from "../bench/landing/judged.js";
import { adds, misses } from "../reference/players/habits/accidents.js";
import { doubledNotes, fills, graceNotes } from "../reference/players/habits/ornaments.js";
import { phaseCorrection } from "../reference/players/laws/index.js";
import { materials } from "../reference/players/materials.js";
import { perform } from "../reference/players/perform.js";
import type { Habit } from "../reference/players/plan.js";
import { sample } from "../samples.js";

const ROUNDS = sample({ suite: 2, proof: 20 });
const RUNGS = materials();

/** Of the silences truly in time, how many are called unclear and how many beyond. */
function sharesOf(name: string, habits: readonly Habit[], hears: "pitches" | "onsets only"): [number, number] {
  const silences = Array.from({ length: ROUNDS }, (_, round) => round).flatMap((round) =>
    RUNGS.flatMap(({ name: rung, score }) => {
      const player = { law: phaseCorrection, temper: "able", habits } as const;
      return judge(score, perform(score, player, ["ornaments", name, rung, round]), hears).silences;
    }),
  );
  const inTime = silences.filter((silence) => silence.true === "in");
  const share = (wanted: string): number => inTime.filter(({ verdict }) => verdict === wanted).length / inTime.length;
  return [share("unclear"), share("beyond")];
}

// Half of what the rows had when ornaments and notes left out counted as another way of playing: 20 to 44 %, by an independent review.
const HALF = { least: 0.1, most: 0.22 };
// Without pitches a landing that was left out cannot be told from one that was displaced: not halved, from 34 % (measured).
const ONSETS_ONLY = 0.28;

describe("A player in time whose notes are not all as written is judged, with pitches and without", () => {
  test.each([
    ["grace notes before a quarter of the notes", [graceNotes(25)], HALF.least],
    ["a quarter of the notes doubled", [doubledNotes(25)], HALF.least],
    ["fills after three notes of ten", [fills(30)], HALF.most],
    ["three notes of ten left out", [misses(30), adds(3)], HALF.most],
  ] as [string, Habit[], number][])("%s: few silences are unclear, none is beyond", (name, habits, most) => {
    for (const hears of ["pitches", "onsets only"] as const) {
      const [unclear, beyond] = sharesOf(name, habits, hears);
      const allowed = hears === "onsets only" && name.endsWith("left out") ? ONSETS_ONLY : most;
      expect(unclear, hears).toBeLessThanOrEqual(allowed);
      // Who leaves out three landings of ten may add a note of the same pitch a beat or less from one, and that looks like the landing, off: 2 of 83.
      expect(beyond, hears).toBeLessThanOrEqual(name.endsWith("left out") ? 0.03 : 0);
    }
  });
});
