import type { InstrumentFamily } from "./families.js";
import type { HeardOnset, HeardOnsets } from "./onset/heardOnset.js";
import { listenFor } from "./onset/listenFor.js";
import { notePitch, noteStretch } from "./pitch/notePitch.js";
import { slidingBuffer } from "./signal/slidingBuffer.js";
import type { Masking } from "./signal/spectrumShape.js";

/** Seconds after which an onset is reported, the frames after it are masked, and the notes that could cut it short are known. Our choice, ample. */
const SETTLED = 1;
/** Seconds of the player that are kept for pitches: a settled note, what sounded before it, and one piece of the echo cancellation. */
const REMEMBERED = 4;

/** A note that was heard, as far as is known while the recording goes on. */
export interface HeardNote extends HeardOnset {
  /** MIDI number in concert pitch; `undefined` where none is clear, and for percussion. */
  readonly pitch: number | undefined;
}

/** Hears onsets and their pitches in one pass. */
export interface NoteHearer {
  /** Takes the next samples of one channel, and gives the notes that have settled: about a second after they sounded. */
  push(samples: Float32Array): readonly HeardNote[];
  /** Everything heard, and the pitch of each onset. */
  finish(): { readonly heard: HeardOnsets; readonly pitchOf: (onset: HeardOnset) => number | undefined };
}

/** Notes in samples of one channel at `rate`. Onsets that are not sure are neither given before the end nor have a pitch. */
export function noteHearer({
  rate,
  family,
  masking,
  isSure = () => true,
}: {
  readonly rate: number;
  readonly family: InstrumentFamily;
  readonly masking?: Masking;
  readonly isSure?: (onset: HeardOnset) => boolean;
}): NoteHearer {
  const listener = listenFor({ family, ...(masking === undefined ? {} : { masking }) });
  const pitchIn = family === "percussive" ? undefined : notePitch(rate);
  const player = slidingBuffer(REMEMBERED * rate);
  const waiting: HeardOnset[] = [];
  const pitches = new Map<number, number | undefined>();
  const settle = (until: number): readonly HeardNote[] => {
    const settled: HeardNote[] = [];
    while (waiting.length > 0 && waiting[0]!.at < until) {
      const onset = waiting.shift()!;
      if (!isSure(onset)) continue;
      const { at } = onset;
      const { from, count } = noteStretch(rate, at, waiting.find(isSure)?.at);
      const pitch = pitchIn?.(player.at(from, count).subarray(0, count));
      pitches.set(Math.max(0, at), pitch);
      settled.push({ ...onset, pitch });
    }
    return settled;
  };
  return {
    push: (samples) => {
      waiting.push(...listener.push({ rate, channels: [samples] }));
      player.push(samples);
      return settle(player.length() / rate - SETTLED);
    },
    finish: () => {
      const heard = listener.finish();
      settle(Number.POSITIVE_INFINITY);
      return { heard, pitchOf: ({ at }) => pitches.get(at) };
    },
  };
}
