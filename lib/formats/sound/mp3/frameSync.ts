import type { ByteReader } from "../byteReader.js";
import { frameAt, isAlike, LONGEST_FRAME, type Mp3Frame } from "./frameHeader.js";

/** A frame of an MP3 file with its bytes, or the number of bytes between two frames that belong to no frame. */
export type Mp3Piece = { readonly frame: Mp3Frame; readonly bytes: Uint8Array } | { readonly lost: number };

/** Bytes searched for the next frame at a time. */
const STRIDE = 4096;

/**
 * Finds the frames of an MP3 file from the position of the reader, and the bytes between them. All have the version and sample rate of the
 * first. A frame header is believed when another frame precedes or follows it directly. Tags after the last frame are left out.
 */
export async function* framesOf(reader: ByteReader): AsyncGenerator<Mp3Piece> {
  let kind: Mp3Frame | undefined;
  let inStep = false;
  let lost = 0;
  while ((await reader.fill(2 * LONGEST_FRAME)) > 0) {
    const bytes = reader.peek(2 * LONGEST_FRAME);
    const frame = frameAt(bytes);
    const fits = frame !== undefined && frame.length <= bytes.length && (kind === undefined || isAlike(kind, frame));
    if (fits && (inStep || isFollowed(bytes, frame))) {
      if (lost > 0) yield { lost };
      lost = 0;
      kind = frame;
      inStep = true;
      yield { frame, bytes: reader.take(frame.length) };
      continue;
    }
    if (inStep && isTag(bytes)) return;
    inStep = false;
    lost += 1 + (await skipToSync(reader));
  }
  if (lost > 0) yield { lost };
}

function isFollowed(bytes: Uint8Array, frame: Mp3Frame): boolean {
  const next = frameAt(bytes, frame.length);
  return bytes.length === frame.length || (next !== undefined && isAlike(frame, next));
}

/** Skips one byte and those up to the next 0xff, the first byte of a frame header. Returns how many were skipped after the first. */
async function skipToSync(reader: ByteReader): Promise<number> {
  reader.take(1);
  await reader.fill(STRIDE);
  const ahead = reader.peek(STRIDE);
  const next = ahead.indexOf(0xff);
  return reader.take(next < 0 ? ahead.length : next).length;
}

/** Whether a tag begins here: ID3v1, APE, Lyrics3 or ID3v2. */
function isTag(bytes: Uint8Array): boolean {
  return /^(?:TAG|APETAGEX|LYRICS|ID3)/.test(String.fromCharCode(...bytes.subarray(0, 8)));
}
