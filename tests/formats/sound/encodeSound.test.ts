import { describe, expect, test } from "vitest";
import { CAUTION } from "../../../lib/base/index.js";
import { encodeFlac, encodeWav, labelOf, quantised, renderSound, type Sound } from "../../../lib/render/sound/index.js";
import { jettyScore, made, only, sine } from "../../render/sound/material.js";

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const short: Sound = {
  rate: 44100,
  channels: [Float32Array.of(0, 0.5, -0.5, 1), Float32Array.of(0, -1, 0.25, 2 ** -15)],
  downbeat: 0,
  loudness: undefined,
  peak: undefined,
  gain: 0,
  heldBack: false,
  advice: [],
};

describe("encodeWav()", () => {
  test("writes the header of RIFF WAVE byte by byte (Multimedia Programming Interface and Data Specifications 1.0, from memory)", () => {
    const file = encodeWav(short, { samples: 16 });
    const view = new DataView(file.buffer);
    expect(text(file.subarray(0, 4))).toBe("RIFF");
    expect(view.getUint32(4, true)).toBe(file.length - 8);
    expect(text(file.subarray(8, 16))).toBe("WAVEfmt ");
    expect(view.getUint32(16, true)).toBe(16);
    expect([20, 22].map((at) => view.getUint16(at, true))).toEqual([1, 2]);
    expect([24, 28].map((at) => view.getUint32(at, true))).toEqual([44100, 44100 * 4]);
    expect([32, 34].map((at) => view.getUint16(at, true))).toEqual([4, 16]);
    expect(text(file.subarray(36, 40))).toBe("data");
    expect(view.getUint32(40, true)).toBe(16);
    expect(Array.from({ length: 8 }, (_, i) => view.getInt16(44 + 2 * i, true))).toEqual([
      0, 0, 16384, -32768, -16384, 8192, 32767, 1,
    ]);
    expect(file.length).toBe(60);
  });

  test("writes 24 bits as three bytes and floating point as it is", () => {
    const whole = encodeWav(short, { samples: 24 });
    const view = new DataView(whole.buffer);
    const at = whole.length - 24;
    const numbers = Array.from(
      { length: 8 },
      (_, i) => view.getUint16(at + 3 * i, true) + 65536 * view.getInt8(at + 3 * i + 2),
    );
    expect(numbers).toEqual([0, 0, 4194304, -8388608, -4194304, 2097152, 8388607, 256]);
    const float = encodeWav(short, { samples: "float" });
    const floats = new DataView(float.buffer, float.length - 32);
    expect(floats.getFloat32(0 + 4 * 7, true)).toBe(2 ** -15);
    expect(new DataView(float.buffer).getUint16(20, true)).toBe(3);
    expect(text(float)).toContain("fact");
  });

  test("says what it holds and how to listen to it", () => {
    const file = encodeWav(short, { label: labelOf(jettyScore()) });
    expect(text(file)).toContain("INFO");
    expect(text(file)).toContain("mix play");
    expect(text(file)).toContain(CAUTION);
    expect(file.length % 2).toBe(0);
    expect(new DataView(file.buffer).getUint32(4, true)).toBe(file.length - 8);
  });
});

describe("quantised()", () => {
  test("keeps silence at 0 without dither, and cuts what is beyond full scale", () => {
    expect([...quantised([Float32Array.of(0, 2), Float32Array.of(-0, -2)], { bits: 16 })]).toEqual([
      0, 0, 32767, -32768,
    ]);
  });

  test("with dither gives numbers fixed by the seed whose error is triangular: mean 0, variance 1/4 of a step", () => {
    // Triangular noise of two uniforms has variance 1/6; rounding adds 1/12, independent of the signal (Lipshitz et al. 1992, from memory).
    const signal = sine(997, { seconds: 1, rate: 44100, level: -40 });
    const numbers = quantised([signal, signal], { bits: 16, dither: 7 });
    expect(numbers).toEqual(quantised([signal, signal], { bits: 16, dither: 7 }));
    expect(numbers).not.toEqual(quantised([signal, signal], { bits: 16, dither: 8 }));
    const errors = Array.from(numbers, (value, i) => value - signal[i >> 1]! * 32768);
    const n = errors.length;
    const mean = errors.reduce((sum, value) => sum + value, 0) / n;
    const variance = errors.reduce((sum, value) => sum + value * value, 0) / n;
    // Five standard errors: of the mean sqrt(1/4 / n), of the variance below sqrt(2) / 4 / sqrt(n).
    expect(Math.abs(mean)).toBeLessThan((5 * 0.5) / Math.sqrt(n));
    expect(Math.abs(variance - 0.25)).toBeLessThan((5 * 0.36) / Math.sqrt(n));
  });
});

describe("encodeFlac()", () => {
  test.each([16, 24] as const)("keeps every sample of %i bits, read back by the library's decoder", async (samples) => {
    const sound = made(renderSound(only(jettyScore({ phrases: 1 }), "kit", "bass")));
    const file = encodeFlac(sound, { samples, label: labelOf(jettyScore()) });
    const numbers = quantised(sound.channels, { bits: samples });
    const read = await decoded(file, samples);
    expect(read.length).toBe(numbers.length);
    expect(read.every((value, i) => value === numbers[i])).toBe(true);
    expect(file.length).toBeLessThan((numbers.length * samples) / 8 / 1.5);
  });

  test("states the number of samples, their MD5 sum and the caution in its header", async () => {
    const { createHash } = await import("node:crypto");
    const file = encodeFlac(short, { samples: 16, label: labelOf(jettyScore()) });
    const view = new DataView(file.buffer);
    expect(text(file.subarray(0, 4))).toBe("fLaC");
    expect(view.getUint32(4)).toBe(34);
    expect(view.getUint32(22) & 0xffffffff).toBe(4);
    const plain = new Uint8Array(Int16Array.from(quantised(short.channels, { bits: 16 })).buffer);
    expect(Buffer.from(file.subarray(26, 42)).toString("hex")).toBe(createHash("md5").update(plain).digest("hex"));
    expect(text(file)).toContain(`DESCRIPTION=${CAUTION}`);
  });

  test("gives the same bytes again", async () => {
    expect(encodeFlac(short)).toEqual(encodeFlac(short));
  });
});

async function decoded(file: Uint8Array, bits: 16 | 24): Promise<number[]> {
  const { default: Flac } = await import("libflacjs/dist/libflac.js");
  const numbers: number[] = [];
  const errors: unknown[] = [];
  const decoder = Flac.create_libflac_decoder(true);
  let at = 0;
  Flac.init_decoder_stream(
    decoder,
    (size: number) => {
      const buffer = file.slice(at, at + size);
      at += buffer.length;
      return { buffer, readDataLength: buffer.length, error: false };
    },
    (channels: Uint8Array[], { blocksize }: { blocksize: number }) => {
      // Wider than the samples where the decoder likes whole words.
      const width = channels[0]!.length / blocksize;
      const views = channels.map((channel) => new DataView(channel.buffer, channel.byteOffset, channel.byteLength));
      for (let i = 0; i < channels[0]!.length / width; i++) {
        for (const view of views) {
          const low = view.getUint16(width * i, true);
          numbers.push(bits === 16 ? view.getInt16(width * i, true) : low + 65536 * view.getInt8(width * i + 2));
        }
      }
    },
    (...error: unknown[]) => void errors.push(error),
  );
  Flac.FLAC__stream_decoder_process_until_end_of_stream(decoder);
  Flac.FLAC__stream_decoder_finish(decoder);
  Flac.FLAC__stream_decoder_delete(decoder);
  expect(errors).toEqual([]);
  return numbers;
}
