import { random } from "../../lib/base/index.js";
import type { SoundBlock, SoundStream } from "../../lib/listen/index.js";

/** Tones of several partials that begin at once at given seconds and die away: as plain as a note can be, and known to the sample. */
export function strikes(
  at: readonly number[],
  { rate, seconds, noise = 0 }: { rate: number; seconds: number; noise?: number },
): Float32Array {
  const samples = new Float32Array(Math.round(rate * seconds));
  const chance = random("strikes");
  if (noise > 0) for (let i = 0; i < samples.length; i++) samples[i] = noise * chance.normal();
  at.forEach((begin, n) => {
    const pitch = 220 * 2 ** ((n % 5) / 6);
    const from = Math.ceil(begin * rate);
    for (let i = from; i < samples.length; i++) {
      const t = i / rate - begin;
      if (t > 1) break;
      let value = 0;
      for (let partial = 1; partial <= 8; partial++)
        value += Math.sin(2 * Math.PI * pitch * partial * t) / partial / Math.exp(partial * t);
      samples[i] = samples[i]! + 0.1 * value * Math.exp(-6 * t);
    }
  });
  return samples;
}

export const blocksOf = (channels: readonly Float32Array[], rate: number, sizes: readonly number[]): SoundBlock[] => {
  const blocks: SoundBlock[] = [];
  const length = channels[0]!.length;
  for (let from = 0, n = 0; from < length; n++) {
    const to = Math.min(length, from + sizes[n % sizes.length]!);
    blocks.push({ rate, channels: channels.map((channel) => channel.subarray(from, to)) });
    from = to;
  }
  return blocks;
};

export async function* streamOf(channels: readonly Float32Array[], rate: number): SoundStream {
  yield* blocksOf(channels, rate, [4096]);
}
