import type { SoundStream } from "../sound.js";
import { openReader } from "./reader.js";

/** A sound has begun when it passes this share of the loudest sample (-34 dB): dither and the ringing of codecs before it stay below. */
const BEGUN = 0.02;
const BLOCK = 16_384;

/** Seconds of the first sample that is clearly heard; `undefined` in silence. */
export async function firstSoundOf(open: () => SoundStream): Promise<number | undefined> {
  const loudest = await scan(open(), () => false);
  if (loudest === undefined || loudest.peak === 0) return undefined;
  const first = await scan(open(), (level) => level >= BEGUN * loudest.peak);
  return first?.at;
}

async function scan(
  stream: SoundStream,
  isWanted: (level: number) => boolean,
): Promise<{ readonly peak: number; readonly at?: number } | undefined> {
  const reader = await openReader(stream);
  if (reader === undefined) return undefined;
  let peak = 0;
  for (let from = 0; reader.length === undefined || from < reader.length; from += BLOCK) {
    const samples = await reader.read(from, BLOCK);
    for (let i = 0; i < samples.length; i++) {
      const level = Math.abs(samples[i]!);
      if (isWanted(level)) {
        await reader.close();
        return { peak: level, at: (from + i) / reader.rate };
      }
      peak = Math.max(peak, level);
    }
  }
  return { peak };
}
