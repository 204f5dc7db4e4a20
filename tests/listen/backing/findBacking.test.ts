import { describe, expect, test } from "vitest";
import { findBacking } from "../../../lib/listen/index.js";
import { backing, lesson, RATE } from "../quayRoom.js";
import { noise, streamOf } from "../room.js";

const known = () => streamOf(backing.samples, RATE);

/** What a minute of windows can leave of the skew, ppm: a fiftieth of a sample at 8 kHz over half a minute. */
const SKEW_FLOOR = ((1 / 50 / 8000) * 1e6) / 30;
/** A loudspeaker's sound spreads in a room: an eighth of a sample at 8 kHz, half a centimetre of air. */
const START_FLOOR = 1 / 8 / 8000;

describe("findBacking()", () => {
  test.each([
    { skewPpm: 37, start: 1.2345, rate: 44100, bleed: -12 },
    { skewPpm: -120, start: 0.3111, rate: 48000, bleed: -12 },
    { skewPpm: 200, start: -3.3, rate: 44100, bleed: 0 },
    { skewPpm: -200, start: 4.5, rate: 16000, bleed: -20 },
  ])("finds start and skew of a minute within 20 ppm and six of its own standard errors: %o", async (setup) => {
    const { samples, rate } = lesson(setup);
    const place = await findBacking(() => streamOf(samples, rate), known);
    if (!place.found) throw new Error("not found");
    expect(Math.abs(place.skewPpm - setup.skewPpm)).toBeLessThan(20);
    expect(Math.abs(place.skewPpm - setup.skewPpm)).toBeLessThan(6 * place.skewErrorPpm + SKEW_FLOOR);
    expect(Math.abs(place.start - setup.start)).toBeLessThan(6 * place.startError + START_FLOOR);
    expect(place.seconds).toBeCloseTo(backing.samples.length / RATE, 6);
  });

  test("does not find a backing that was only in the headphones", async () => {
    const { samples, rate } = lesson({ bleed: Number.NEGATIVE_INFINITY, seconds: 40 });
    expect(await findBacking(() => streamOf(samples, rate), known)).toEqual({ found: false });
  });

  test("does not find a backing in noise, in silence or in nothing", async () => {
    const hiss = noise(20 * RATE, { level: -20, seed: "only noise" });
    expect(await findBacking(() => streamOf(hiss, RATE), known)).toEqual({ found: false });
    expect(await findBacking(() => streamOf(new Float32Array(5 * RATE), RATE), known)).toEqual({ found: false });
    expect(await findBacking(() => streamOf(new Float32Array(0), RATE), known)).toEqual({ found: false });
  });

  test("finds the same whatever the length of the blocks", async () => {
    const { samples, rate } = lesson({ seconds: 20 });
    const once = await findBacking(() => streamOf(samples, rate), known);
    const again = await findBacking(
      () => streamOf(samples, rate, 1009),
      () => streamOf(backing.samples, RATE, 65_537),
    );
    expect(again).toEqual(once);
    expect(once.found).toBe(true);
  });

  test("says where else the backing fits when a recording holds one phrase of many alike", async () => {
    const { samples } = lesson({ start: 0, seconds: 27 });
    // From the second phrase on for a phrase: the count-in, which alone tells phrases apart, is not in it.
    const piece = samples.slice(18 * RATE, 27 * RATE);
    const place = await findBacking(() => streamOf(piece, RATE), known);
    if (!place.found) throw new Error("not found");
    expect(place.rival).toBeDefined();
  });

  test("finds where a loop that repeats itself exactly begins, when the whole of it is in the recording", async () => {
    const rate = 8000;
    // Strokes of noise at uneven distances, for five seconds, twelve times.
    const stroke = noise(5 * rate, { level: -12, seed: "loop" }).map(
      (value, i) =>
        value *
        Math.exp(
          -20 *
            ([0, 0.4, 0.5, 1.1, 1.9, 2.3, 3.2, 4.5]
              .map((at) => i / rate - at)
              .filter((t) => t >= 0)
              .at(-1) ?? 9),
        ),
    );
    const loop = Float32Array.from({ length: 60 * rate }, (_, i) => stroke[i % stroke.length]!);
    const start = 0.75;
    const samples = noise(62 * rate, { level: -40, seed: "loop hiss" }).map(
      (value, i) => value + (loop[i - start * rate] ?? 0),
    );
    const place = await findBacking(
      () => streamOf(samples, rate),
      () => streamOf(loop, rate),
    );
    if (!place.found) throw new Error("not found");
    expect(Math.abs(place.start - start)).toBeLessThan(START_FLOOR);
    expect(place.rival).toBeUndefined();
  });
});
