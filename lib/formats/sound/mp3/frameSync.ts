import type { ByteReader } from "../byteReader.js";
import { frameAt, isAlike, LONGEST_FRAME, type Mp3Frame } from "./frameHeader.js";

/** A frame of an MP3 file with its bytes, or bytes between frames that are none. */
export type Mp3Piece = { readonly frame: Mp3Frame; readonly bytes: Uint8Array } | { readonly lost: number };

/** Bytes looked through for the next frame at a time. */
const STRIDE = 4096;

/**
 * The frames of an MP3 file from where the reader stands, all of the kind of the first, with what lies between them. A frame counts when it
 * follows another or is followed by another; tags behind the last frame are left out.
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

/** Leaves out the byte the reader stands at and those up to the next 0xff; how many more than one. */
async function skipToSync(reader: ByteReader): Promise<number> {
  reader.take(1);
  await reader.fill(STRIDE);
  const ahead = reader.peek(STRIDE);
  const next = ahead.indexOf(0xff);
  return reader.take(next < 0 ? ahead.length : next).length;
}

/** Tags people's programs put behind the sound: ID3v1, APE, Lyrics3. */
function isTag(bytes: Uint8Array): boolean {
  return /^(?:TAG|APETAGEX|LYRICS|ID3)/.test(String.fromCharCode(...bytes.subarray(0, 8)));
}
