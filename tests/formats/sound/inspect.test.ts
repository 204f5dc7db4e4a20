import { describe, expect, test } from "vitest";
import { clicks, hear, wavBytes } from "./soundFiles.js";

const samples = clicks();
const tone = (peak: number, offset = 0): Float32Array =>
  Float32Array.from({ length: 44_100 }, (_, i) => peak * Math.sin((2 * Math.PI * 440 * i) / 44_100) + offset);
/** Four notes of half a second: a wave by its phase in periods, shaped by the seconds since its note began. */
const notes = (wave: (phase: number) => number, shape: (seconds: number) => number, pitch = 233): Float32Array =>
  Float32Array.from({ length: 88_200 }, (_, i) => shape((i % 22_050) / 44_100) * wave((pitch * i) / 44_100));
const sine = (phase: number): number => Math.sin(2 * Math.PI * phase);
const struck = (seconds: number): number => Math.min(1, seconds / 0.005) * Math.exp(-seconds / 0.15);
const gated = (seconds: number): number => Math.max(0, Math.min(1, seconds / 0.005, (0.4 - seconds) / 0.01));
const codesOf = async (channel: Float32Array) => (await hear(wavBytes({ samples: [channel], coding: "f32" }))).codes;

describe("what the samples of a recording show", () => {
  test("is nothing when it is fine", async () => {
    expect(await codesOf(samples)).toEqual([]);
    // A sine that reaches full scale is not clipped.
    expect(await codesOf(tone(1))).toEqual([]);
  });
  test("RECORDING_SILENT: nothing but zeros, noise below 16 bits, or a constant", async () => {
    expect(await codesOf(new Float32Array(1000))).toEqual(["RECORDING_SILENT"]);
    expect(await codesOf(tone(0.9e-4))).toEqual(["RECORDING_SILENT"]);
    expect(await codesOf(new Float32Array(1000).fill(0.5))).toEqual(["RECORDING_OFF_CENTRE", "RECORDING_SILENT"]);
  });
  test("RECORDING_QUIET: below -40 dB", async () => {
    expect(await codesOf(tone(0.009))).toEqual(["RECORDING_QUIET"]);
    expect(await codesOf(tone(0.011))).toEqual([]);
  });
  test("RECORDING_CLIPPED: the tops of waves are missing", async () => {
    expect(await codesOf(tone(1.5).map((x) => Math.max(-1, Math.min(1, x))))).toEqual(["RECORDING_CLIPPED"]);
  });
  test("RECORDING_CLIPPED: wherever the tops of waves lie that are missing, and says where", async () => {
    for (const decibels of [-1, -3, -6, -10, -14, -20]) {
      const level = 10 ** (decibels / 20);
      const cut = notes(sine, struck).map((x) => level * Math.max(-0.5, Math.min(0.5, x)) * 2);
      const { problems } = await hear(wavBytes({ samples: [cut] }));
      expect(problems).toMatchObject([{ code: "RECORDING_CLIPPED", severity: "advice" }]);
      expect(problems[0]!.message).toContain(`cut off at ${decibels} dB of full scale`);
    }
    // On one side only, as an amplifier that is not fed evenly cuts it; with noise of what comes after it.
    const uneven = notes(sine, struck).map((x, i) => 0.3 * Math.min(0.6, x) + 1e-4 * Math.sin(i * i));
    expect(await codesOf(uneven)).toEqual(["RECORDING_CLIPPED"]);
  });
  test("is no ceiling where an instrument makes flat waves, or waves of one height", async () => {
    const waves = {
      sine,
      square: (phase: number) => Math.sign(sine(phase)),
      "square of sines": (phase: number) =>
        [1, 3, 5, 7, 9, 11].reduce((sum, k) => sum + Math.sin(2 * Math.PI * k * phase) / k, 0),
      overdriven: (phase: number) => Math.tanh(10 * sine(phase)),
      "flat at its top": (phase: number) => sine(phase) + Math.sin(6 * Math.PI * phase) / 9,
      triangle: (phase: number) => Math.asin(sine(phase)),
      // Found in trials: with nothing between its notes, each began with a wave that had risen from zero.
      pulse: (phase: number) => (phase % 1 < 0.2 ? 0.9 : -0.225),
    };
    for (const [name, wave] of Object.entries(waves))
      for (const shape of [gated, struck, () => 1])
        for (const pitch of [41, 110, 233, 880])
          expect(await codesOf(notes(wave, shape, pitch).map((x) => 0.6 * x)), `${name} at ${pitch} Hz`).not.toContain(
            "RECORDING_CLIPPED",
          );
  });
  test("RECORDING_OFF_CENTRE: the mean is not 0", async () => {
    expect(await codesOf(tone(0.5, 0.02))).toEqual(["RECORDING_OFF_CENTRE"]);
    expect(await codesOf(tone(0.5, 0.009))).toEqual([]);
  });
  test("RECORDING_NOT_NUMBERS: they count as silence, and everything else stays", async () => {
    const broken = samples.slice();
    broken.set([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e30], 100);
    const heard = await hear(wavBytes({ samples: [broken], coding: "f32" }));
    expect(heard.channels[0]).toEqual(samples);
    expect(heard.problems).toMatchObject([
      { code: "RECORDING_NOT_NUMBERS", message: expect.stringContaining("4 of 44,100") },
    ]);
  });
});
