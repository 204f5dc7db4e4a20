import { describe, expect, test } from "vitest";
import { type Mark, paintMark } from "../../../lib/render/film/index.js";

const [WIDTH, HEIGHT] = [64, 48];
const MARK: Mark = { x: 30.25, top: 6, tip: 14, bottom: 40, half: 6, line: 3, waits: false };

/** A grey frame with a black mark on it. */
function painted(mark: Mark, ink = "#000000"): Uint8Array {
  const planes = new Uint8Array((WIDTH * HEIGHT * 3) / 2).fill(128);
  paintMark({ width: WIDTH, height: HEIGHT, planes }, mark, ink);
  return planes;
}

/** How much of each pixel of a row is painted: 128 is nothing, black is 16. */
function row(planes: Uint8Array, y: number): readonly number[] {
  return Array.from(planes.subarray(y * WIDTH, (y + 1) * WIDTH), (value) => (128 - value) / (128 - 16));
}

describe("the mark", () => {
  test("lies with its middle where it is asked for, to a fraction of a pixel", () => {
    for (const x of [20, 20.25, 20.5, 31.9]) {
      for (const y of [8, 11, 20, 39]) {
        const shares = row(painted({ ...MARK, x }), y);
        const all = shares.reduce((a, b) => a + b, 0);
        const middle = shares.reduce((sum, share, i) => sum + share * (i + 0.5), 0) / all;
        // Sixteen points of a pixel, a quarter of one apart.
        expect(Math.abs(middle - x)).toBeLessThan(0.13);
      }
    }
  });

  test("is a triangle on its tip, then a line as wide as asked for, and nothing else", () => {
    const planes = painted(MARK);
    const sum = (y: number): number => row(planes, y).reduce((a, b) => a + b, 0);
    for (let y = 0; y < HEIGHT; y++) {
      const dy = y + 0.5 - MARK.top;
      const wide = y < 6 || y >= 40 ? 0 : y < 14 ? 2 * 6 * (1 - dy / 8) : 3;
      expect(Math.abs(sum(y) - wide)).toBeLessThan(0.6);
    }
  });

  test("is hollow while it waits, and its line is the same", () => {
    const [full, hollow] = [painted(MARK), painted({ ...MARK, waits: true, line: 1 })];
    expect(row(full, 8)[30]).toBe(1);
    expect(row(hollow, 8)[30]).toBe(0);
    expect(row(hollow, 6)[30]).toBe(1);
  });

  test("stays inside a frame that it reaches over", () => {
    for (const x of [-20, 0, WIDTH, WIDTH + 30]) expect(painted({ ...MARK, x, top: -10 })).toHaveLength(4608);
  });

  test("has the colours of ITU-R BT.709 for white, black and the primaries", () => {
    // From the recommendation's weights, 8 bits (section 3.5, digital levels): white 235/128/128, black 16/128/128; red, green, blue as in colour bars of 100 %.
    const reference = {
      "#ffffff": [235, 128, 128],
      "#000000": [16, 128, 128],
      "#ff0000": [63, 102, 240],
      "#00ff00": [173, 42, 26],
      "#0000ff": [32, 240, 118],
    } as const;
    const wide = { ...MARK, line: 20, x: 32 };
    for (const [ink, levels] of Object.entries(reference)) {
      const planes = painted(wide, ink);
      const at = [30 * WIDTH + 32, WIDTH * HEIGHT + 15 * 32 + 16, WIDTH * HEIGHT * 1.25 + 15 * 32 + 16];
      expect(
        at.map((place) => planes[place]),
        ink,
      ).toEqual(levels);
    }
  });
});
