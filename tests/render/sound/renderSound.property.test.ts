import fc from "fast-check";
import { expect, test } from "vitest";
import { renderSound, truePeak } from "../../../lib/render/sound/index.js";
import { highest, jettyScore, made, RATES } from "./material.js";

const rungs = fc.record({
  tempo: fc.integer({ min: 60, max: 200 }),
  length: fc.constantFrom("1 beat", "1/2 bar", "1 bar", "1 1/2 bars"),
  at: fc.constantFrom("end" as const, "start" as const),
  variant: fc.constantFrom("plain", "busy"),
  rate: fc.constantFrom(...RATES),
});

test("renderSound() keeps silences silent, peaks below -1 dBTP, and re-enters on the sample, at any tempo and length", () => {
  fc.assert(
    fc.property(rungs, ({ tempo, length, at, variant, rate }) => {
      const score = jettyScore({ tempo, variant, dropout: { length, at }, phrases: 1 });
      const sound = made(renderSound(score, { rate }));
      expect(20 * Math.log10(truePeak(sound.channels))).toBeLessThanOrEqual(-1);
      for (const { from, to, landing } of score.dropouts) {
        const [begins, ends] = [from, to].map((time) => sound.downbeat + Math.round(time * rate)) as [number, number];
        // A silence from the very start of the take may have the last click of the count-in ring into it.
        const clicksGone = from <= 0 ? begins + Math.round(0.2 * rate) : begins + Math.round(0.01 * rate);
        expect(highest(sound, clicksGone, ends)).toBe(0);
        if (landing !== null) expect(highest(sound, ends, ends + 3)).toBeGreaterThan(1e-4);
      }
      expect(sound.channels[0].length).toBe(sound.channels[1].length);
      expect(sound.channels[0].at(-1)).toBe(0);
    }),
    { numRuns: 25 },
  );
});
