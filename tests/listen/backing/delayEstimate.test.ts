import { describe, expect, test } from "vitest";
import { delayBy, estimateDelay, fitSlope } from "../../../lib/listen/backing/delayEstimate.js";
import { realFft } from "../../../lib/listen/signal/realFft.js";
import { noise } from "../room.js";

const SIZE = 1024;
const spectrumOf = (seed: string): Float32Array =>
  new Float32Array(realFft(SIZE).forward(noise(SIZE, { level: -10, seed })));
/** A path that lets everything through as it is: 1 in every bin. */
const path = Float64Array.from({ length: SIZE + 2 }, (_, k) => 1 - (k % 2));
const rest = new Float64Array(SIZE / 2 + 1).fill(1);

describe("delayOf()", () => {
  test.each([-0.1, 0.02, 0.1])("finds a delay of %d samples, to the square that first order leaves", (late) => {
    const a = spectrumOf("delay");
    const b = a.slice();
    delayBy(late, b);
    const found = estimateDelay({ a, b, path, rest });
    // At the top a tenth of a sample turns by 0.3: the sine lies 1.6 % below its angle.
    expect(Math.abs(found.late - late)).toBeLessThan(0.016 * Math.abs(late));
    expect(found.weight).toBeGreaterThan(0);
  });

  test("knows nothing where nothing sounds", () => {
    const silence = new Float32Array(SIZE + 2);
    expect(estimateDelay({ a: silence, b: silence, path, rest })).toEqual({ late: 0, weight: 0 });
  });
});

describe("slopeOf()", () => {
  test("finds the slope of delays on a line, whatever their weights", () => {
    const places = [0, 100, 250, 700];
    const delays = places.map((place, i) => ({ late: 3e-6 * place + 0.2, weight: 1 + i }));
    expect(fitSlope(delays, places).slope).toBeCloseTo(3e-6, 12);
  });

  test("is level when nothing is known, and beyond what clocks can still be off by", () => {
    expect(fitSlope([], []).slope).toBe(0);
    const steep = [0, 100].map((place) => ({ late: place * 1e-3, weight: 1 }));
    expect(fitSlope(steep, [0, 100]).slope).toBe(0);
  });
});
