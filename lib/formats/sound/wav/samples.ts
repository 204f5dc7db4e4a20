import type { SoundBlock } from "../soundStream.js";
import type { WavFormat } from "./header.js";

type Sample = (data: DataView, at: number) => number;

/** Samples of 8 bits are unsigned, wider ones signed; full scale is 1 (the convention of RIFF WAVE). */
const WHOLE: Readonly<Record<number, Sample>> = {
  1: (data, at) => (data.getUint8(at) - 128) / 128,
  2: (data, at) => data.getInt16(at, true) / 32_768,
  3: (data, at) => (data.getInt8(at + 2) * 65_536 + data.getUint16(at, true)) / 8_388_608,
  4: (data, at) => data.getInt32(at, true) / 2_147_483_648,
};
const FLOAT: Readonly<Record<number, Sample>> = {
  4: (data, at) => data.getFloat32(at, true),
  8: (data, at) => data.getFloat64(at, true),
};

/** Converts bytes, a whole number of frames, to samples by channel. */
export function samplesIn(bytes: Uint8Array, { coding, channels, rate, width }: WavFormat): SoundBlock {
  const data = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const sample = (coding === "float" ? FLOAT : WHOLE)[width]!;
  const frame = channels * width;
  const count = bytes.length / frame;
  return {
    rate,
    channels: Array.from({ length: channels }, (_, channel) => {
      const samples = new Float32Array(count);
      for (let i = 0, at = channel * width; i < count; i++, at += frame) samples[i] = sample(data, at);
      return samples;
    }),
  };
}
