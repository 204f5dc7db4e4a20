import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { encodeFlac, quantised } from "../../../../lib/render/sound/index.js";
import { clicks, hear, inPieces, soundOf } from "../soundFiles.js";

const samples = clicks();
const sound = soundOf([samples, samples.map((x) => 0 - x)]);

describe("decodeSound() of FLAC", () => {
  test.each([16, 24] as const)("gives the samples of %i bits exactly", async (bits) => {
    const heard = await hear(encodeFlac(sound, { samples: bits }));
    expect(heard.codes).toEqual([]);
    const numbers = quantised(sound.channels, { bits });
    const expected = Float32Array.from({ length: samples.length }, (_, i) => numbers[2 * i]! / 2 ** (bits - 1));
    expect(heard.channels[0]).toEqual(expected);
  });

  test("gives any samples exactly, those whose bytes are all 0 or 255 included", async () => {
    const sample = fc.oneof(
      fc.integer({ min: -32_768, max: 32_767 }),
      fc.constantFrom(0, -1, 255, 256, -256, -255, 128, -128),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(sample, { minLength: 1, maxLength: 400 }), async (numbers) => {
        const channel = Float32Array.from(numbers, (x) => x / 32_768);
        const heard = await hear(encodeFlac(soundOf([channel, channel], 48_000), { samples: 16 }));
        expect(heard.channels).toEqual([channel, channel]);
      }),
      { numRuns: 60 },
    );
  });

  test("does not depend on how the bytes arrive", async () => {
    const bytes = encodeFlac(sound);
    expect(await hear(inPieces(bytes, 333))).toEqual(await hear(bytes));
  });

  test("keeps the times around a frame that is broken, and says how much is missing", async () => {
    const noise = Float32Array.from({ length: 44_100 }, (_, i) => 0.3 * Math.sin(i * i));
    const bytes = encodeFlac(soundOf([noise, noise]), { samples: 16 });
    const whole = await hear(bytes);
    const broken = bytes.slice();
    const middle = bytes.length >> 1;
    broken.set(Array(40).fill(0x55), middle);
    const heard = await hear(broken);
    expect(heard.codes).toEqual(["RECORDING_DAMAGED"]);
    expect(heard.channels[0]!.length).toBe(44_100);
    expect(heard.channels[0]!.subarray(0, 12_000)).toEqual(whole.channels[0]!.subarray(0, 12_000));
    expect(heard.channels[0]!.subarray(-12_000)).toEqual(whole.channels[0]!.subarray(-12_000));
  });

  test("says how much of a truncated file is there", async () => {
    const bytes = encodeFlac(soundOf([samples.map((x, i) => x + 0.1 * Math.sin(i * i)), samples]));
    const heard = await hear(bytes.subarray(0, bytes.length >> 1));
    expect(heard.codes).toEqual(["RECORDING_CUT_SHORT"]);
    expect(heard.channels[0]!.length).toBeGreaterThan(10_000);
  });

  test("refuses samples of a width the decoder garbles", async () => {
    const bytes = encodeFlac(sound, { samples: 16 });
    // 20 bits: bits 103 to 107 of the stream information are the width less 1 (RFC 9639, section 8.2).
    bytes[20] = (bytes[20]! & 0xfe) | (19 >> 4);
    bytes[21] = (bytes[21]! & 0x0f) | ((19 & 15) << 4);
    expect((await hear(bytes)).codes).toEqual(["RECORDING_DECODER_MISSING"]);
  });

  test("refuses a header that is cut or states no rate", async () => {
    const bytes = encodeFlac(sound, { samples: 16 });
    expect((await hear(bytes.subarray(0, 30))).codes).toEqual(["RECORDING_HEADER_BROKEN"]);
    bytes.fill(0, 18, 20);
    bytes[20] = bytes[20]! & 0x0f;
    expect((await hear(bytes)).codes).toEqual(["RECORDING_HEADER_BROKEN"]);
  });
});
