import { describe, expect, test } from "vitest";
import type { Score } from "../../lib/schema/index.js";
import { silenceLength } from "../../lib/take/index.js";
import { plainScore } from "./scores.js";

/** Beats of half a second: two bars of four beats, a bar of three and a bar of four, in seconds. They end at 7.5 s. */
const OF_BARS: readonly (readonly [number, number])[] = [
  [0, 1],
  [2, 2],
  [4, 3],
  [5.5, 4],
];

function silence(from: number, to: number, { bars = OF_BARS, duration = 7.5 } = {}): Score {
  const plain = plainScore();
  return {
    ...plain,
    beat: 0.5,
    duration,
    bars: bars.map(([at, bar]) => ({ ...plain.bars[0]!, at, bar })),
    dropouts: [{ ...plain.dropouts[0]!, from, to }],
  };
}

describe("silenceLength()", () => {
  test.each([
    // The bar at whose beginning, or after it, the silence begins is the one that counts.
    [0, 1, "half a bar"],
    [1, 2, "half a bar"],
    [0, 2, "one bar"],
    [2, 4, "one bar"],
    [0, 3, "1 1/2 bars"],
    [0, 4, "2 bars"],
    [4, 5.5, "one bar"],
    [4, 4.75, "half a bar"],
    [4.75, 5.5, "half a bar"],
    // The last bar ends where the score ends.
    [5.5, 7.5, "one bar"],
    [6.5, 7.5, "half a bar"],
    // No half of a bar: in beats.
    [0, 0.5, "one beat"],
    [0, 1.5, "3 beats"],
    [4, 5, "2 beats"],
    [0, 0.75, "1.5 beats"],
    // 5 ms more than a bar of two seconds are more than a thousandth of it, 1 ms is not.
    [0, 2.001, "one bar"],
    [0, 2.005, "4 beats"],
    [0, 0, "0 beats"],
  ])("says the silence from %d s to %d s as %s", (from, to, said) => {
    expect(silenceLength(silence(from, to), 0)).toBe(said);
  });

  test("takes a beginning that rounding put a little before its bar for the beginning of that bar", () => {
    expect(silenceLength(silence(4 - 1e-7, 5.5), 0)).toBe("one bar");
    expect(silenceLength(silence(4 - 1e-5, 5.5), 0)).toBe("3 beats");
  });

  test("counts beats where there is no bar yet, as in a silence that begins in the count-in", () => {
    expect(silenceLength(silence(-1, 1), 0)).toBe("4 beats");
    expect(silenceLength(silence(0, 1, { bars: [] }), 0)).toBe("2 beats");
  });
});
