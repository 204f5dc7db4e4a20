import fc from "fast-check";
import { expect, test } from "vitest";
import { realFft } from "../../../lib/listen/signal/realFft.js";

const sounds = fc
  .integer({ min: 2, max: 6 })
  .chain((power) =>
    fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2 ** power, maxLength: 2 ** power }),
  );

test("fourier() gives the sums that define the transform, and back", () => {
  fc.assert(
    fc.property(sounds, (samples) => {
      const size = samples.length;
      const transform = realFft(size);
      const spectrum = transform.forward(samples);
      for (let bin = 0; bin <= size / 2; bin++) {
        const turn = (i: number): number => (-2 * Math.PI * bin * i) / size;
        const re = samples.reduce((sum, value, i) => sum + value * Math.cos(turn(i)), 0);
        const im = samples.reduce((sum, value, i) => sum + value * Math.sin(turn(i)), 0);
        expect(spectrum[2 * bin]).toBeCloseTo(re, 9);
        expect(spectrum[2 * bin + 1]).toBeCloseTo(im, 9);
      }
      transform.inverse(spectrum).forEach((value, i) => {
        expect(value).toBeCloseTo(samples[i]!, 12);
      });
    }),
  );
});
