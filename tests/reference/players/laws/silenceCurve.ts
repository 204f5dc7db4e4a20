import { handOf } from "./hand.js";
import type { Law } from "./law.js";
import { walk } from "./walk.js";

const SHARE = { lowest: 0.2, range: 0.4 } as const;
/** Mean drift of a silence in biases: these players rush more often than they drag; our choice. */
const MEAN = -0.5;

/** How much of the drift of a silence has come when a share `passed` of it is over; `length` in beats. */
type Curve = (passed: number, length: number) => number;

/** The tempo error grows evenly from nothing through each silence, so that drift grows with the square of time. Ours. */
export const accelerating: Law = curved("accelerating in silences", (passed) => passed * passed);

/** Nothing moves until the last beat of a silence; all the drift comes in it. Ours. */
export const lurch: Law = curved("lurch at the end", (passed, length) =>
  Math.max(0, 1 - (1 - passed) * Math.max(1, length)),
);

/** In time for the first half of a silence, at another tempo for the second. Ours. */
export const turning: Law = curved("another tempo from mid-silence", (passed) => Math.max(0, 2 * passed - 1));

function curved(name: string, curve: Curve): Law {
  return {
    name,
    linearWithin: Infinity,
    play(stage, temper, { draws, traits }) {
      const share = SHARE.lowest + SHARE.range * traits("share");
      const hand = handOf(stage, temper, draws);
      const clock = draws("clock", stage.at.length);
      const size = draws("size", stage.silences.length);
      const late = walk(stage, {
        start: draws("start", 1)[0]! * temper.clock,
        pass: (place, gap, silence) => {
          const noise = temper.clock * Math.sqrt(gap / stage.beat) * clock[place]!;
          if (silence < 0) return noise;
          const { from, length } = stage.silences[silence]!;
          const passed = (stage.at[place]! - stage.at[from]!) / length;
          const come = curve(passed + gap / length, length / stage.beat) - curve(passed, length / stage.beat);
          return noise + temper.bias * (MEAN + size[silence]!) * length * come;
        },
        answer: (now, place) => (stage.tick[place] === 0 ? 0 : share * now),
      });
      return { late, hand };
    },
  };
}
