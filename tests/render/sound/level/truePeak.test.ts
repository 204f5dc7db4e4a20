import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { random } from "../../../../lib/base/index.js";
import { truePeak } from "../../../../lib/render/sound/index.js";
import { UNDER_READING } from "../../../../lib/render/sound/level/truePeak.js";
import { sine } from "../material.js";

const dB = (value: number): number => 20 * Math.log10(value);

describe("truePeak()", () => {
  test("finds the peak of a sine at a quarter of the rate that no sample touches (0 dBTP, samples at -3.01 dBFS)", () => {
    // EBU Tech 3341 cases 15 to 18 are of this kind (from memory: +0.2 / -0.4 dB).
    const between = Float32Array.from({ length: 4800 }, (_, i) => Math.sin((Math.PI / 2) * i + Math.PI / 4));
    expect(Math.max(...between)).toBeCloseTo(Math.SQRT1_2, 6);
    // The start is a jump, beside which a band-limited signal overshoots; the middle alone is the sine.
    const windowed = between.map((value, i) => value * Math.sin((Math.PI * (i + 0.5)) / 4800) ** 2);
    expect(Math.abs(dB(truePeak([windowed])))).toBeLessThan(0.01);
  });

  test("is at most UNDER_READING too low for sines up to 0.45 of the rate, whatever their phase", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.45, noNaN: true }),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        (share, phase) => {
          const tone = Float32Array.from(
            { length: 4000 },
            (_, i) => Math.sin(2 * Math.PI * share * i + phase) * Math.sin((Math.PI * i) / 4000) ** 2,
          );
          const read = dB(truePeak([tone]));
          // A window of 32 samples passes 0.45 of the rate within 0.1 dB (computed below for the row half-way).
          expect(read).toBeGreaterThan(-UNDER_READING - 0.1);
          expect(read).toBeLessThan(0.1);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("is never below the highest sample, and finds what a search through every stretch finds", () => {
    const stream = random(5);
    const noise = Float32Array.from({ length: 5000 }, (_, i) => (stream.uniform() - 0.5) * (i % 1000 < 100 ? 1 : 0.4));
    const peak = truePeak([noise]);
    expect(peak).toBeGreaterThanOrEqual(noise.reduce((most, value) => Math.max(most, Math.abs(value)), 0));
    // Each stretch alone, with what reaches into it: none can be higher than the whole, and one is as high.
    let most = 0;
    for (let from = 0; from < noise.length; from += 500) {
      const piece = noise.map((value, i) => (i >= from - 64 && i < from + 564 ? value : 0));
      most = Math.max(most, truePeak([piece]));
    }
    expect(most).toBeGreaterThanOrEqual(peak - 1e-6);
  });

  test("is 0 for silence and for nothing, and the highest of its channels", () => {
    expect(truePeak([])).toBe(0);
    expect(truePeak([new Float32Array(1000)])).toBe(0);
    const loud = sine(100, { seconds: 0.1, rate: 48000, level: -6 });
    expect(truePeak([new Float32Array(4800), loud])).toBe(truePeak([loud]));
  });
});
