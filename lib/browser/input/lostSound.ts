import type { TimedBlock } from "./model.js";

/** Sound that never came: seconds of the context. */
export interface Lost {
  readonly from: number;
  readonly to: number;
}

/** Fills what is missing between blocks, and finds what came as silence. */
export interface LostSound {
  push(block: { readonly frame: number; readonly samples: Float32Array }): {
    readonly block: TimedBlock;
    readonly lost: readonly Lost[];
  };
}

/** Exact zeros in a row that are lost sound, in a microphone that hisses, seconds: our choice; two of the blocks that browsers work in. */
const LEAST = 0.005;
/** Frames looked at together for the hiss, how many of those are remembered, a second or so, and of how many at least a hiss is known: our choice, a quarter of that. */
const GROUP = 128;
const REMEMBERED = 400;
const KNOWN = 100;
/** A microphone hisses when its softest moment is louder than this: one step of 16 bits. Others send exact zeros when nothing sounds. */
const HISS = 1 / 32_768;

/**
 * Finds sound that was lost between the microphone and the page. Either frames are missing (then silence is put in, so that later notes keep their
 * time), or, which browsers do when they are busy, exact zeros stand in for them; those are no sound of a microphone that hisses.
 */
export function lostSound(rate: number): LostSound {
  let next: number | undefined;
  let zerosFrom: number | undefined;
  let hissedBefore = false;
  const levels: number[] = [];
  // A device that sends nothing but zeros most of the time, between beeps or behind a gate, does so without losing anything.
  const isHissing = (): boolean => {
    const sounding = levels.filter((level) => level > 0);
    const isMostly = levels.length >= KNOWN && 2 * sounding.length > levels.length;
    return isMostly && Math.min(...sounding) > HISS;
  };
  const look = (samples: Float32Array, frame: number): Lost[] => {
    const lost: Lost[] = [];
    for (let at = 0; at < samples.length; at++) {
      if (samples[at] === 0) {
        if (zerosFrom === undefined) {
          zerosFrom = frame + at;
          hissedBefore = isHissing();
        }
        continue;
      }
      if (zerosFrom !== undefined && frame + at - zerosFrom >= LEAST * rate && hissedBefore)
        lost.push({ from: zerosFrom / rate, to: (frame + at) / rate });
      zerosFrom = undefined;
    }
    for (let at = 0; at + GROUP <= samples.length; at += GROUP) {
      // Where zeros stand in for sound its level is 0; a moment that dies away to nothing tells that zeros are usual.
      levels.push(levelOf(samples, at));
    }
    while (levels.length > REMEMBERED) levels.shift();
    return lost;
  };
  return {
    push: ({ frame, samples }) => {
      const filled = next === undefined ? 0 : Math.max(0, frame - next);
      next = frame + samples.length;
      const gap = filled === 0 ? [] : [{ from: (frame - filled) / rate, to: frame / rate }];
      if (filled > 0) zerosFrom = undefined;
      const lost = [...gap, ...look(samples, frame)];
      if (filled === 0) return { block: { frame, rate, samples, filled }, lost };
      const whole = new Float32Array(filled + samples.length);
      whole.set(samples, filled);
      return { block: { frame: frame - filled, rate, samples: whole, filled }, lost };
    },
  };
}

/** Mean size of the samples that are not zero; 0 when half of them are. */
function levelOf(samples: Float32Array, from: number): number {
  let [sum, count] = [0, 0];
  for (let i = from; i < from + GROUP; i++) {
    if (samples[i] === 0) continue;
    sum += Math.abs(samples[i]!);
    count++;
  }
  return count < GROUP / 2 ? 0 : sum / count;
}
