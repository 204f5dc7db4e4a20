import { describe, expect, test } from "vitest";
import { findPitches } from "../../lib/listen/index.js";
import { streamOf } from "../listen/room.js";

/**
 * Frequencies of equal temperament about A4 = 440 Hz (ISO 16:1975, from memory): f = 440 * 2^((n - 69) / 12); n = 21, 60 and 108 computed,
 * the others by whole octaves from 440 Hz.
 */
const FREQUENCIES: readonly (readonly [key: number, hertz: number])[] = [
  [33, 55],
  [45, 110],
  [57, 220],
  [60, 261.6255653],
  [69, 440],
  [81, 880],
  [93, 1760],
  [105, 3520],
  [108, 4186.009045],
];

describe.each([44100, 48000, 16000])("at %i samples a second", (rate) => {
  test.each(FREQUENCIES)("key %i is heard from a pure tone and a sawtooth of %d Hz", async (key, hertz) => {
    const partials = Math.max(1, Math.floor((0.4 * rate) / hertz));
    for (const count of [1, Math.min(20, partials)]) {
      const sound = Float32Array.from({ length: rate }, (_, i) => {
        let value = 0;
        for (let n = 1; n <= count; n++) value += Math.sin((2 * Math.PI * n * hertz * i) / rate) / n;
        return i < rate / 4 ? 0 : 0.2 * value;
      });
      const [found] = await findPitches(streamOf(sound, rate), [0.25]);
      // A twentieth of a semitone: a period of the highest key is five samples long, and is placed to a hundredth of one by a parabola.
      expect(found).toBeDefined();
      expect(Math.abs(found! - key)).toBeLessThan(0.05);
    }
  });
});
