import { describe, expect, test } from "vitest";
import { random } from "../../../lib/base/index.js";
import { findBacking } from "../../../lib/listen/index.js";
import { renderSound } from "../../../lib/render/sound/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { plainScore } from "../../take/scores.js";
import { backing, lesson, RATE } from "../quayRoom.js";
import { noise, streamOf } from "../room.js";

const known = () => streamOf(backing.samples, RATE);

/** What a minute of windows can leave of the skew, ppm: a fiftieth of a sample at 8 kHz over half a minute. */
const SKEW_FLOOR = ((1 / 50 / 8000) * 1e6) / 30;
/** A loudspeaker's sound travels in a room: an eighth of a sample at 8 kHz, half a centimetre of air. */
const START_FLOOR = 1 / 8 / 8000;

/** A hat on every eighth and a kick on every second quarter, but in the silences. */
function strokesOf(score: Score): { samples: Float32Array; downbeat: number } {
  const isSilent = (at: number): boolean => score.dropouts.some(({ from, to }) => at >= from - 1e-6 && at < to - 1e-6);
  const notes = Array.from({ length: Math.round((2 * score.duration) / score.beat) }, (_, i) => ({
    position: `${i}/8`,
    length: "1/16",
    at: (i * score.beat) / 2,
    seconds: score.beat / 4,
  })).filter(({ at }) => !isSilent(at));
  const voices = notes.flatMap((note, i) => [
    { ...note, voice: "hat" },
    ...(i % 4 === 0 ? [{ ...note, voice: "kick" }] : []),
  ]);
  const made = renderSound({ ...score, parts: [{ name: "kit", does: "drops", student: false, notes: voices }] });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return { samples: made.value.channels[0], downbeat: made.value.downbeat / RATE };
}

/** Adds a struck note that rings, at this second. */
function strike(samples: Float32Array, at: number): void {
  const from = Math.round(at * RATE);
  for (let i = 0; i < 0.4 * RATE && from + i < samples.length; i++) {
    const tone = Math.sin((2 * Math.PI * 294 * i) / RATE) + 0.5 * Math.sin((2 * Math.PI * 1470 * i) / RATE);
    samples[from + i]! += 0.3 * tone * Math.exp(-i / RATE / 0.09);
  }
}

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

  test("finds soft strokes that repeat every two beats under a loud struck player, whoever plays", async () => {
    const score = plainScore({ beat: 60 / 84, accompanied: 14, silent: 2, phrases: 2, outro: 0 });
    const kit = strokesOf(score);
    const [start, gain] = [2.37, 0.5];
    for (const player of ["tern", "knot", "gull"]) {
      const chance = random(player);
      const samples = new Float32Array(Math.round((start + kit.samples.length / RATE) * RATE));
      kit.samples.forEach((value, i) => {
        samples[Math.round(start * RATE) + i]! += gain * value;
      });
      // Nobody plays exactly on the drums: 15 ms about them.
      for (const { at } of score.expected) strike(samples, start + kit.downbeat + at + 0.015 * chance.normal());
      const place = await findBacking(
        () => streamOf(samples, RATE),
        () => streamOf(kit.samples, RATE),
      );
      if (!place.found) throw new Error(`${player}: not found`);
      expect(Math.abs(place.start - start), player).toBeLessThan(0.5e-3);
    }
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
