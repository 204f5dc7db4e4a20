import type { SoundBlock } from "../../formats/sound/index.js";
import type { HeardOnset, HeardOnsets, ListeningOptions } from "./heardOnset.js";
import { onsetDetector } from "./onsetDetector.js";

/** Listens to a recording as it comes in. */
export interface Listener {
  /** Takes the next block, and gives the onsets that were not certain before and are now, in order of time. */
  push(block: SoundBlock): readonly HeardOnset[];
  /** Ends the recording, and gives all that was heard. */
  finish(): HeardOnsets;
}

/** Lower rates hold too little of an attack (our choice: telephone speech). */
const LOWEST_RATE = 8000;

/**
 * Listens to a recording as it comes in, block by block, for the beginnings of notes.
 *
 * Blocks may be of any length; what is heard does not depend on it. `push` gives an onset about a third of a second after it sounded, its
 * velocity beside the notes so far; `finish` gives all, without those far weaker than the rest, or none when nothing was pushed.
 * Throws `RangeError` for a rate below 8000 Hz and for blocks that differ in form, `TypeError` for anything that is asked after the end.
 *
 * @example
 * const listener = listenFor({ family: "blown" });
 * listener.push({ rate: 44100, channels: [new Float32Array(44100)] }); // []
 * listener.finish().seconds; // 1
 */
export function listenFor(options: ListeningOptions): Listener {
  let detector: ReturnType<typeof onsetDetector> | undefined;
  let form = "";
  let over = false;
  const goOn = (): void => {
    if (over) throw new TypeError("the recording has ended; the next one needs a listener of its own");
  };
  return {
    push: (block) => {
      goOn();
      const found = formOf(block);
      if (detector === undefined) {
        detector = onsetDetector({ rate: block.rate, count: block.channels.length }, options);
        form = found;
      }
      if (found !== form) throw new RangeError(`blocks of one recording are alike: ${form}, then ${found}`);
      return detector.push(block.channels);
    },
    finish: () => {
      goOn();
      over = true;
      return detector?.finish() ?? { onsets: [], noiseMs: 0, seconds: 0 };
    },
  };
}

function formOf({ rate, channels }: SoundBlock): string {
  if (!(rate >= LOWEST_RATE && Number.isFinite(rate)) || channels.length === 0)
    throw new RangeError(
      `onsets are heard from ${LOWEST_RATE} Hz and one channel on, got ${rate} Hz, ${channels.length}`,
    );
  if (channels.some(({ length }) => length !== channels[0]!.length))
    throw new RangeError("the channels of a block are of one length");
  return `${rate} Hz, channels: ${channels.length}`;
}
