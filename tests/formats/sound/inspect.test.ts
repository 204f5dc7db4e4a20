import { describe, expect, test } from "vitest";
import { clicks, hear, wavBytes } from "./soundFiles.js";

const samples = clicks();
const tone = (peak: number, offset = 0): Float32Array =>
  Float32Array.from({ length: 44_100 }, (_, i) => peak * Math.sin((2 * Math.PI * 440 * i) / 44_100) + offset);
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
      { code: "RECORDING_NOT_NUMBERS", message: expect.stringContaining("4 of 44100") },
    ]);
  });
});
