import type { Score } from "../../../../lib/schema/index.js";
import type { Habit } from "../plan.js";

const NEAR = 1e-3;

/** Where a note lies between beats, share of a beat. */
function placesOf({ expected, bars, beat }: Score): readonly number[] {
  return expected.map(({ at, bar }) => {
    const beats = (at - bars[bar - 1]!.at) / beat;
    return beats - Math.floor(beats + NEAR);
  });
}

const isAt = (place: number, share: number): boolean => Math.abs(place - share) < NEAR;

/**
 * Eighths off the beat are swung by two to one where they are written straight, and straight where they are written swung: in the whole take or in the silences
 * alone. It is the place of those notes and no drift; landings on a beat are in time. Not for lines in threes.
 */
export function otherSwing(where: "throughout" | "in silences"): Habit {
  return {
    name: `straight for swung and swung for straight, ${where}`,
    fits: (_stage, score) => {
      const places = placesOf(score);
      return (
        !places.some((place) => isAt(place, 1 / 3)) && places.some((place) => isAt(place, 1 / 2) || isAt(place, 2 / 3))
      );
    },
    apply({ score, stage, alone }) {
      placesOf(score).forEach((place, note) => {
        if (where === "in silences" && stage.silent[stage.note[note]!] === -1) return;
        if (isAt(place, 1 / 2)) alone[note]! += stage.beat / 6;
        if (isAt(place, 2 / 3)) alone[note]! -= stage.beat / 6;
      });
    },
  };
}
