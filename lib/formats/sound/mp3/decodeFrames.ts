import type { MPEGDecoder } from "mpg123-decoder";
import type { SoundBlock, SoundStream } from "../soundStream.js";
import type { Mp3Frame } from "./frameHeader.js";
import type { Mp3Piece } from "./frameSync.js";

/** What was found while decoding; filled in on the way. */
export interface Mp3Tally {
  /** Frames of sound so far, silenced ones included. */
  frames: number;
  silenced: number;
  /** At which frames stretches were lost. */
  readonly lost: number[];
  /** Bytes behind the last frame that belong to none. */
  tail: number;
}

/** Longest hole that is filled, frames; our choice: more is no longer one recording. */
const LONGEST_HOLE = 2000;

/**
 * The sound of frames, one block each. The decoder gets one frame at a time and gives one back, so a
 * frame it refuses and bytes between frames become silence of the same length: bytes by the mean length of frames so far.
 */
export async function* decodeFrames(
  pieces: AsyncIterable<Mp3Piece>,
  { kind, tally, Decoder }: { readonly kind: Mp3Frame; readonly tally: Mp3Tally; readonly Decoder: typeof MPEGDecoder },
): SoundStream {
  const decoder = new Decoder({ enableGapless: false });
  const silence = (): SoundBlock => ({
    rate: kind.rate,
    channels: [new Float32Array(kind.samples), new Float32Array(kind.samples)],
  });
  let bytes = 0;
  let whole = 0;
  let hole = 0;
  try {
    await decoder.ready;
    for await (const piece of pieces) {
      if ("lost" in piece) {
        hole = piece.lost;
        continue;
      }
      const missing = whole === 0 ? 0 : Math.min(LONGEST_HOLE, Math.round(hole / (bytes / whole)));
      if (hole > 0) tally.lost.push(tally.frames);
      hole = 0;
      for (let i = 0; i < missing; i++) {
        tally.silenced++;
        tally.frames++;
        yield silence();
      }
      const { channelData, samplesDecoded } = decoder.decodeFrame(piece.bytes);
      bytes += piece.bytes.length;
      whole++;
      if (samplesDecoded >= kind.samples) {
        // One that was refused before may come late, and has been replaced by then.
        yield {
          rate: kind.rate,
          channels: channelData.map((samples) => samples.subarray(samplesDecoded - kind.samples)),
        };
      } else {
        if (tally.lost.at(-1) !== tally.frames - 1) tally.lost.push(tally.frames);
        tally.silenced++;
        yield silence();
      }
      tally.frames++;
    }
    tally.tail = hole;
  } finally {
    decoder.free();
  }
}
