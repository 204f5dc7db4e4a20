import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findPitches } from "../../../lib/listen/index.js";
import { mixed, noise, streamOf } from "../room.js";

const RATE = 44100;

/** A tone of partials with these shares, from `at` for `seconds`, in a recording of two seconds. */
function tone(hertz: number, { shares, at, seconds }: { shares: readonly number[]; at: number; seconds: number }) {
  const sound = new Float32Array(2 * RATE);
  for (let i = 0; i < seconds * RATE; i++) {
    const swell = Math.min(1, i / (0.01 * RATE), seconds * 100 - i / (0.01 * RATE));
    for (const [n, share] of shares.entries()) {
      if ((n + 1) * hertz < 0.45 * RATE)
        sound[Math.round(at * RATE) + i]! += 0.2 * share * swell * Math.sin((2 * Math.PI * (n + 1) * hertz * i) / RATE);
    }
  }
  return sound;
}

describe("findPitches()", () => {
  test("finds tones whose partials fall off with their number to a tenth of a semitone", async () => {
    const timbre = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 0, maxLength: 8 });
    await fc.assert(
      fc.asyncProperty(fc.double({ min: 40, max: 96, noNaN: true }), timbre, async (key, above) => {
        const shares = [1, ...above.map((share, n) => share / (n + 2))];
        const sound = tone(440 * 2 ** ((key - 69) / 12), { shares, at: 0.5, seconds: 0.4 });
        const [found] = await findPitches(streamOf(sound, RATE), [0.5]);
        expect(found).toBeDefined();
        expect(Math.abs(found! - key)).toBeLessThan(0.1);
      }),
      { numRuns: 60 },
    );
  });

  test("finds the new note while the one before still rings", async () => {
    const shares = [1, 0.5, 0.3, 0.2];
    const ringing = tone(220, { shares, at: 0.3, seconds: 1.2 }).map((value) => value / 3);
    const sound = mixed(ringing, tone(330, { shares, at: 0.8, seconds: 0.4 }));
    const [first, second] = await findPitches(streamOf(sound, RATE), [0.3, 0.8]);
    expect(Math.round(first!)).toBe(57);
    expect(Math.round(second!)).toBe(64);
  });

  test("gives none for noise, silence and notes too short to tell", async () => {
    const hiss = noise(2 * RATE, { level: -20, seed: "no pitch" });
    expect(await findPitches(streamOf(hiss, RATE), [0.2, 0.6, 1.2])).toEqual([undefined, undefined, undefined]);
    expect(await findPitches(streamOf(new Float32Array(RATE), RATE), [0.2])).toEqual([undefined]);
    const sound = tone(220, { shares: [1], at: 0.5, seconds: 0.5 });
    expect(await findPitches(streamOf(sound, RATE), [0.5, 0.53])).toEqual([undefined, expect.closeTo(57, 1)]);
  });

  test("gives one answer for each onset, none for none, and none after the end", async () => {
    expect(await findPitches(streamOf(new Float32Array(0), RATE), [1])).toEqual([undefined]);
    expect(await findPitches(streamOf(tone(440, { shares: [1], at: 0, seconds: 1 }), RATE), [])).toEqual([]);
    expect(await findPitches(streamOf(tone(440, { shares: [1], at: 0, seconds: 1 }), RATE), [5])).toEqual([undefined]);
  });
});
