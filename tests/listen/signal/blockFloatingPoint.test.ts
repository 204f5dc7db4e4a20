import fc from "fast-check";
import { expect, test } from "vitest";
import { packedSound } from "../../../lib/listen/signal/blockFloatingPoint.js";
import { noise } from "../room.js";

test("heldSound() gives what it was given, to half a step of 16 bits below the loudest of about a third of a second", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 20_000 }),
      fc.integer({ min: 1, max: 5000 }),
      fc.double({ min: -80, max: 0, noNaN: true }),
      fc.integer({ min: -500, max: 20_500 }),
      (length, block, level, from) => {
        const sound = noise(length, { level, seed: "held" });
        const held = packedSound();
        for (let at = 0; at < length; at += block) held.push(sound.subarray(at, at + block));
        expect(held.length()).toBe(length);
        const loudest = sound.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
        held.read(from, 1000).forEach((value, i) => {
          // Half a step, and what single precision rounds.
          expect(Math.abs(value - (sound[from + i] ?? 0))).toBeLessThanOrEqual((0.501 * loudest) / 32_767);
        });
      },
    ),
    { numRuns: 40 },
  );
});
