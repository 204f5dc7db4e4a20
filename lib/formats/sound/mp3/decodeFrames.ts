import type { MPEGDecoder } from "mpg123-decoder";
import type { SoundBlock, SoundStream } from "../soundStream.js";
import type { Mp3Frame } from "./frameHeader.js";
import type { Mp3Piece } from "./frameSync.js";

/** Counts and damage found while frames are decoded. Filled in during decoding. */
export interface Mp3Tally {
  /** Frames so far, those replaced by silence included. */
  frames: number;
  /** Frames replaced by silence. */
  silenced: number;
  /** Frame numbers at which a stretch could not be decoded. */
  readonly lost: number[];
  /** Bytes after the last frame. */
  tail: number;
}

/** Longest gap that is filled with silence, in frames; our choice: a longer one separates two recordings. */
const LONGEST_HOLE = 2000;

/**
 * Decodes MP3 frames, one block for each. The decoder takes one frame at a time and returns one. A frame that it refuses becomes silence of the
 * same length. Bytes between frames become silence too; their length follows from the mean size of the frames so far.
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
        // The decoder may return a frame late that silence has already replaced; only the last one is kept.
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
