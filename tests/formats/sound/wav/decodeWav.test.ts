import { describe, expect, test } from "vitest";
import { encodeWav } from "../../../../lib/render/sound/index.js";
import { clicks, hear, inPieces, soundOf, type WavSpec, wavBytes } from "../soundFiles.js";

const samples = clicks();

describe("decodeSound() of WAV", () => {
  test.each([
    ["u8", 1 / 128],
    ["s16", 1 / 32_768],
    ["s24", 1 / 8_388_608],
    ["s32", 2 ** -24],
    ["f32", 0],
    ["f64", 2 ** -24],
  ] as const)("gives the samples of %s within half a step", async (coding, step) => {
    for (const extensible of [false, true])
      for (const long of [false, true]) {
        const heard = await hear(wavBytes({ samples: [samples, samples.map((x) => 0 - x)], coding, extensible, long }));
        expect(heard.codes).toEqual([]);
        expect(heard.rate).toBe(44_100);
        expect(heard.channels.map((channel) => channel.length)).toEqual([samples.length, samples.length]);
        const worst = (channel: Float32Array, sign: number): number =>
          channel.reduce((most, x, i) => Math.max(most, Math.abs(x - sign * samples[i]!)), 0);
        expect(worst(heard.channels[0]!, 1)).toBeLessThanOrEqual(step / 2);
        expect(worst(heard.channels[1]!, -1)).toBeLessThanOrEqual(step / 2);
      }
  });

  test("gives back what encodeWav() wrote", async () => {
    const heard = await hear(encodeWav(soundOf([samples, samples]), { samples: "float" }));
    expect(heard.codes).toEqual([]);
    expect(heard.channels).toEqual([samples, samples]);
  });

  test("does not depend on how the bytes arrive", async () => {
    const bytes = wavBytes({ samples: [samples.subarray(0, 3000)], coding: "s24" });
    const whole = await hear(bytes);
    for (const size of [1, 7, 1000]) expect(await hear(inPieces(bytes, size))).toEqual(whole);
  });

  test("takes a size that was never filled in as all that follows", async () => {
    const interrupted = await hear(wavBytes({ samples: [samples], lies: { size: 0 } }));
    expect(interrupted.channels[0]!.length).toBe(samples.length);
    expect(interrupted.codes).toEqual(["RECORDING_CUT_SHORT"]);
    const piped = await hear(wavBytes({ samples: [samples], lies: { size: 0xffffffff } }));
    expect(piped.channels[0]!.length).toBe(samples.length);
    expect(piped.codes).toEqual([]);
  });

  test("says how much of a truncated file is there, and gives it", async () => {
    const heard = await hear(wavBytes({ samples: [samples] }).subarray(0, 44 + 2 * 22_050));
    expect(heard.channels[0]!.length).toBe(22_050);
    expect(heard.problems).toMatchObject([
      { code: "RECORDING_CUT_SHORT", severity: "advice", message: "it states 1.00 s of sound and holds 0.50 s" },
    ]);
  });

  const lies: readonly (readonly [string, WavSpec["lies"], string])[] = [
    ["no channels", { channels: 0, align: 0 }, "RECORDING_HEADER_BROKEN"],
    ["65,535 channels", { channels: 65_535 }, "RECORDING_HEADER_BROKEN"],
    ["no rate", { rate: 0 }, "RECORDING_HEADER_BROKEN"],
    ["a rate of 4 GHz", { rate: 0xffffffff }, "RECORDING_HEADER_BROKEN"],
    ["a frame of one byte", { align: 1 }, "RECORDING_HEADER_BROKEN"],
    ["samples of no bits", { bits: 0 }, "RECORDING_HEADER_BROKEN"],
    ["samples of 65,535 bits", { bits: 65_535 }, "RECORDING_HEADER_BROKEN"],
    ["a format of 4 GB", { formatSize: 0xfffffff0 }, "RECORDING_HEADER_BROKEN"],
    ["a format of 3 bytes", { formatSize: 3 }, "RECORDING_HEADER_BROKEN"],
    ["compressed samples", { code: 0x11 }, "RECORDING_DECODER_MISSING"],
  ];
  test.each(lies)("refuses %s", async (_, lie, code) => {
    const heard = await hear(wavBytes({ samples: [samples], lies: lie! }));
    expect(new Set(heard.codes)).toEqual(new Set([code]));
  });

  test("refuses a file without samples, by what is missing", async () => {
    expect((await hear(wavBytes({ samples: [[]] }))).codes).toEqual(["RECORDING_WITHOUT_SOUND"]);
    expect((await hear(wavBytes({ samples: [samples] }).subarray(0, 36))).codes).toEqual(["RECORDING_HEADER_BROKEN"]);
  });
});
