import fc from "fast-check";
import { expect, test } from "vitest";
import { type HeardOnsets, INSTRUMENT_FAMILIES, listenFor, type SoundBlock } from "../../../lib/listen/index.js";
import { blocksOf, strikes } from "../strikes.js";

const RATE = 22050;
const AT = [0.6, 1.1, 1.45, 1.9];
const SECONDS = 2.6;
const family = fc.constantFrom(...INSTRUMENT_FAMILIES);

function heard(blocks: readonly SoundBlock[], of: (typeof INSTRUMENT_FAMILIES)[number]): HeardOnsets {
  const listener = listenFor({ family: of });
  for (const block of blocks) listener.push(block);
  return listener.finish();
}

test("what is heard does not depend on how the recording is cut into blocks", () => {
  const channels = [strikes(AT, { rate: 44100, seconds: SECONDS }), strikes([0.8], { rate: 44100, seconds: SECONDS })];
  fc.assert(
    fc.property(family, fc.array(fc.integer({ min: 1, max: 9000 }), { minLength: 1, maxLength: 6 }), (of, sizes) => {
      // Blocks of a few samples only would take long and show nothing more.
      fc.pre(Math.max(...sizes) > 50);
      const whole = heard(blocksOf(channels, 44100, [1e9]), of);
      expect(heard(blocksOf(channels, 44100, sizes), of)).toEqual(whole);
    }),
    { numRuns: 12 },
  );
});

test("what is heard does not depend on the gain", () => {
  const samples = strikes(AT, { rate: RATE, seconds: SECONDS, noise: 1e-4 });
  fc.assert(
    // Powers of two, so that no rounding differs: then nothing may.
    fc.property(family, fc.integer({ min: -12, max: 4 }), (of, power) => {
      const louder = samples.map((sample) => sample * 2 ** power);
      expect(heard([{ rate: RATE, channels: [louder] }], of)).toEqual(heard([{ rate: RATE, channels: [samples] }], of));
    }),
    { numRuns: 12 },
  );
});

test("a recording that begins later by whole frames is heard later by as much, and else by as much within the step of its attack", () => {
  const samples = strikes(AT, { rate: RATE, seconds: SECONDS });
  fc.assert(
    fc.property(family, fc.integer({ min: 1, max: 3000 }), (of, by) => {
      const before = heard([{ rate: RATE, channels: [samples] }], of).onsets;
      const later = new Float32Array(samples.length + by);
      later.set(samples, by);
      const after = heard([{ rate: RATE, channels: [later] }], of).onsets;
      expect(after).toHaveLength(before.length);
      // The envelope of an attack is sampled every 3 ms at most, and 1 / 100 s, two frames, are 441 samples exactly.
      const tolerance = by % 441 === 0 ? 1e-9 : 0.003;
      after.forEach(({ at }, i) => {
        expect(Math.abs(at - by / RATE - before[i]!.at)).toBeLessThanOrEqual(tolerance);
      });
    }),
    { numRuns: 20, examples: [["plucked", 441]] },
  );
});

test("one sound is heard alike at any rate", () => {
  const reference = heard(
    [{ rate: 44100, channels: [strikes(AT, { rate: 44100, seconds: SECONDS })] }],
    "plucked",
  ).onsets;
  fc.assert(
    fc.property(fc.constantFrom(16000, 22050, 32000, 48000, 88200, 96000), (rate) => {
      const { onsets } = heard([{ rate, channels: [strikes(AT, { rate, seconds: SECONDS })] }], "plucked");
      expect(onsets).toHaveLength(reference.length);
      // Windows are powers of two: between 23.2 and 32 ms long here, and the times may differ by half of what they differ by.
      onsets.forEach(({ at }, i) => {
        expect(Math.abs(at - reference[i]!.at)).toBeLessThanOrEqual(0.0045);
      });
    }),
    { numRuns: 6 },
  );
});
