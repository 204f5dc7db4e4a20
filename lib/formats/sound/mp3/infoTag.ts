import { FRAME_HEADER, type Mp3Frame } from "./frameHeader.js";

/** The information frame of an MP3 file: a first frame without sound, in which the encoder describes the file. */
export interface Mp3Info {
  /** Frames of sound after it; `undefined` when not stated. */
  readonly frames: number | undefined;
  /** Samples that the encoder added before the sound, and after it to fill the last frame; `undefined` when not stated. */
  readonly added: { readonly before: number; readonly behind: number } | undefined;
}

/**
 * Delay of every layer III decoder, in samples: 528 and 1, by the documentation of LAME's tag (from memory; confirmed by the first click in a
 * file of known content).
 */
export const DECODER_DELAY = 529;
/** Samples that LAME adds before the sound by default (measured by a click in files without a tag). */
export const USUAL_DELAY = 576;

const HAS_FRAMES = 1;
const HAS_BYTES = 2;
const HAS_CONTENTS = 4;
const HAS_QUALITY = 8;

/** Reads the information frame; `undefined` when the first frame is sound. Layouts: the Xing and VBRI headers, and LAME's tag (common practice). */
export function infoIn(bytes: Uint8Array, frame: Mp3Frame): Mp3Info | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, Math.min(bytes.length, frame.length));
  if (named(view, FRAME_HEADER + 32, "VBRI") && view.byteLength >= 54)
    return { frames: view.getUint32(50), added: undefined };
  const side = frame.isFirstVersion ? (frame.isMono ? 17 : 32) : frame.isMono ? 9 : 17;
  const at = FRAME_HEADER + side;
  if (!named(view, at, "Xing") && !named(view, at, "Info")) return undefined;
  if (at + 8 > view.byteLength) return { frames: undefined, added: undefined };
  const flags = view.getUint32(at + 4);
  const hasFrames = (flags & HAS_FRAMES) !== 0 && at + 12 <= view.byteLength;
  const tag =
    at +
    8 +
    [HAS_FRAMES, HAS_BYTES, HAS_QUALITY].filter((flag) => flags & flag).length * 4 +
    (flags & HAS_CONTENTS ? 100 : 0);
  return { frames: hasFrames ? view.getUint32(at + 8) : undefined, added: addedIn(view, tag) };
}

/** Two numbers of 12 bits, 21 bytes after the start of the encoder's name. A tag without a name has no such numbers. */
function addedIn(view: DataView, tag: number): Mp3Info["added"] {
  if (tag + 24 > view.byteLength || view.getUint8(tag) === 0) return undefined;
  const both = (view.getUint16(tag + 21) << 8) | view.getUint8(tag + 23);
  return { before: both >> 12, behind: both & 0xfff };
}

function named(view: DataView, at: number, name: string): boolean {
  if (at + 4 > view.byteLength) return false;
  return [...name].every((letter, i) => view.getUint8(at + i) === letter.charCodeAt(0));
}
