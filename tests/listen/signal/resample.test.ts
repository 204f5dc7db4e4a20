import { expect, test } from "vitest";
import { resampled, stretchFor } from "../../../lib/listen/signal/resample.js";
import { openReader } from "../../../lib/listen/signal/soundReader.js";
import { streamOf } from "../room.js";

const RATE = 44100;
const sine = (hertz: number, seconds = 0.5): Float32Array =>
  Float32Array.from({ length: seconds * RATE }, (_, i) => Math.sin((2 * Math.PI * hertz * i) / RATE));

test.each([200, 1000, 5000])("resampled() gives a sine of %i Hz between its samples, to -70 dB", (hertz) => {
  const step = 1 + 120e-6;
  const from = 4000.37;
  const places = { from, step, count: 5000 };
  const { first, length } = stretchFor(places);
  const found = resampled(Float64Array.from(sine(hertz).subarray(first, first + length)), places);
  // Amplitude and phase are fitted, what is left over is the error.
  let [re, im] = [0, 0];
  found.forEach((value, i) => {
    const angle = (2 * Math.PI * hertz * (from + step * i)) / RATE;
    re += (2 * value * Math.cos(angle)) / found.length;
    im += (2 * value * Math.sin(angle)) / found.length;
  });
  const rest = found.map((value, i) => {
    const angle = (2 * Math.PI * hertz * (from + step * i)) / RATE;
    return value - re * Math.cos(angle) - im * Math.sin(angle);
  });
  // Turns that are not whole leave up to 1 / turns of the amplitude in the fit, and its own residue in what is left.
  const turns = (hertz * step * 5000) / RATE;
  expect(Math.hypot(re, im)).toBeGreaterThan(0.99);
  expect(Math.max(...rest.map(Math.abs))).toBeLessThan(10 ** (-70 / 20) + 1 / turns / Math.PI);
});

test("openListening() lets next to nothing above half its rate fold over", async () => {
  const reader = (await openReader(streamOf(sine(13_000), RATE)))!;
  expect(reader.rate).toBe(22_050);
  const found = await reader.read(2000, 5000);
  expect(Math.max(...found.map(Math.abs))).toBeLessThan(10 ** (-60 / 20));
});

test("a reader gives zeros before the start and after the end, and says how long the recording is", async () => {
  const reader = (await openReader(streamOf(Float32Array.of(0, 0.5, -0.5), 16_000)))!;
  const found = await reader.read(-2, 8);
  expect([...found].map((value) => value !== 0)).toEqual([false, false, false, true, true, false, false, false]);
  expect(reader.length).toBe(3);
  expect(await openReader(streamOf(new Float32Array(0), RATE))).toBeUndefined();
});
