import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeSound, encodeFlac, encodeWav, type StereoSound } from "../../../lib/formats/index.js";

const rate = fc.constantFrom(44100 as const, 48000 as const);
const length = fc.integer({ min: 1, max: 20_000 });

/** Two channels of so many samples, each drawn from `sample`, repeated where the list is shorter. */
function sounds(sample: fc.Arbitrary<number>): fc.Arbitrary<StereoSound> {
  const values = fc.array(sample, { minLength: 1, maxLength: 300 });
  return fc.record({ rate, length, left: values, right: values }).map(({ rate, length, left, right }) => {
    const channel = (from: readonly number[]): Float32Array =>
      Float32Array.from({ length }, (_, i) => from[i % from.length]!);
    return { rate, channels: [channel(left), channel(right)] };
  });
}

/** Samples that lie on the steps of `bits` bits, the ends of the scale among them. */
function stepsOf(bits: 16 | 24): fc.Arbitrary<number> {
  const full = 2 ** (bits - 1);
  return fc.integer({ min: -full, max: full - 1 }).map((step) => step / full);
}

async function decoded(file: Uint8Array): Promise<StereoSound> {
  const opened = await decodeSound(file);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const parts: [number[], number[]] = [[], []];
  let rate = 0;
  for await (const block of opened.value.sound) {
    rate = block.rate;
    block.channels.forEach((samples, c) => {
      for (const sample of samples) parts[c]!.push(sample);
    });
  }
  expect(opened.value.problems().filter(({ severity }) => severity === "error")).toEqual([]);
  return { rate: rate as StereoSound["rate"], channels: [Float32Array.from(parts[0]), Float32Array.from(parts[1])] };
}

describe("decodeSound() reads back every sample, on its place", () => {
  test.each([16, 24] as const)("of encodeWav() with %i bits", async (samples) => {
    await fc.assert(
      fc.asyncProperty(sounds(stepsOf(samples)), async (sound) => {
        expect(await decoded(encodeWav(sound, { samples }))).toEqual(sound);
      }),
      { numRuns: 30 },
    );
  });

  test("of encodeWav() in floating point, whatever the sample", async () => {
    await fc.assert(
      fc.asyncProperty(sounds(fc.float({ min: -1, max: 1, noNaN: true })), async (sound) => {
        expect(await decoded(encodeWav(sound, { samples: "float" }))).toEqual(sound);
      }),
      { numRuns: 30 },
    );
  });

  test.each([16, 24] as const)("of encodeFlac() with %i bits", async (samples) => {
    await fc.assert(
      fc.asyncProperty(sounds(stepsOf(samples)), async (sound) => {
        expect(await decoded(encodeFlac(sound, { samples }))).toEqual(sound);
      }),
      { numRuns: 30 },
    );
  });

  test("within half a step where a sample lies between steps", async () => {
    await fc.assert(
      fc.asyncProperty(sounds(fc.float({ min: -1, max: Math.fround(0.999), noNaN: true })), async (sound) => {
        const { channels } = await decoded(encodeWav(sound, { samples: 16 }));
        const most = sound.channels.map((samples, c) =>
          samples.reduce((worst, sample, i) => Math.max(worst, Math.abs(sample - channels[c]![i]!)), 0),
        );
        expect(Math.max(...most)).toBeLessThanOrEqual(0.5 / 32_768);
      }),
      { numRuns: 15 },
    );
  });
});
