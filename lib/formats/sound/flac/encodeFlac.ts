import { type Bits, quantised } from "../pcm.js";
import type { Label, StereoSound } from "../stereoSound.js";
import { bitWriter } from "./bitWriter.js";
import { BLOCK, frameEncoder } from "./encodeFrame.js";
import { md5 } from "./md5.js";

/** Options of a FLAC file. */
export interface FlacOptions {
  /** 16 or 24 bits; 24 when left out. */
  readonly samples?: Bits;
  /** Seed of the dither; none is added without. */
  readonly dither?: number | string | undefined;
  readonly label?: Label;
}

const STREAM_INFO_SIZE = 34;
const LAST_BLOCK = 0x80;
const COMMENT_BLOCK = 4;

/**
 * Encodes a sound as a FLAC file (RFC 9639): frames of 4096 samples, linear prediction up to order 8. The compression is lossless: every sample is kept exactly.
 *
 * @example
 * soundFormatOf(encodeFlac({ rate: 48000, channels: [new Float32Array(4800), new Float32Array(4800)] })) // "FLAC"
 */
export function encodeFlac(sound: StereoSound, { samples = 24, dither, label }: FlacOptions = {}): Uint8Array {
  const numbers = quantised(sound.channels, { bits: samples, dither });
  const length = sound.channels[0].length;
  const frames = bitWriter(length * 3);
  const encodeFrame = frameEncoder(frames, numbers, { rate: sound.rate, bits: samples });
  const sizes: number[] = [];
  for (let from = 0; from < length; from += BLOCK) {
    const before = frames.length();
    encodeFrame(from / BLOCK);
    sizes.push(frames.length() - before);
  }
  const information = streamInformation(sizes, { rate: sound.rate, bits: samples, length });
  information.set(md5(packed(numbers, samples)), 4 + STREAM_INFO_SIZE - 16);
  const comments = commentBlock(label);
  const file = new Uint8Array(4 + information.length + comments.length + frames.length());
  file.set(new TextEncoder().encode("fLaC"));
  file.set(information, 4);
  file.set(comments, 4 + information.length);
  file.set(frames.bytes(), 4 + information.length + comments.length);
  return file;
}

/** The block of the stream information without its MD5 sum (RFC 9639, section 8.2). */
function streamInformation(
  sizes: readonly number[],
  { rate, bits, length }: { rate: number; bits: Bits; length: number },
): Uint8Array {
  const view = new DataView(new ArrayBuffer(4 + STREAM_INFO_SIZE));
  putUint24(view, 1, STREAM_INFO_SIZE);
  view.setUint16(4, BLOCK);
  view.setUint16(6, BLOCK);
  putUint24(
    view,
    8,
    sizes.reduce((least, size) => Math.min(least, size), sizes[0] ?? 0),
  );
  putUint24(
    view,
    11,
    sizes.reduce((most, size) => Math.max(most, size), 0),
  );
  // 20 bits of rate, 3 of channels less one, 5 of bits less one, 36 of length.
  view.setUint32(14, rate * 2 ** 12 + (1 << 9) + ((bits - 1) << 4) + Math.floor(length / 2 ** 32));
  view.setUint32(18, length % 2 ** 32);
  return new Uint8Array(view.buffer);
}

/** The samples as the MD5 sum goes over them: little-endian, left and right in turn. */
function packed(numbers: Int32Array, bits: Bits): Uint8Array {
  const width = bits / 8;
  const bytes = new Uint8Array(numbers.length * width);
  for (let i = 0, at = 0; i < numbers.length; i++, at += width) {
    const value = numbers[i]!;
    bytes[at] = value;
    bytes[at + 1] = value >> 8;
    if (width === 3) bytes[at + 2] = value >> 16;
  }
  return bytes;
}

/** Vorbis comments: their lengths are little-endian; all other numbers of FLAC are big-endian. */
function commentBlock(label: Label | undefined): Uint8Array {
  const texts = label === undefined ? [] : tagsOf(label);
  const [maker, ...comments] = ["leeway", ...texts].map((text) => new TextEncoder().encode(text));
  const size = [maker!, ...comments].reduce((sum, text) => sum + 4 + text.length, 4);
  const view = new DataView(new ArrayBuffer(4 + size));
  const bytes = new Uint8Array(view.buffer);
  view.setUint8(0, LAST_BLOCK | COMMENT_BLOCK);
  putUint24(view, 1, size);
  let at = 4;
  const put = (text: Uint8Array): void => {
    view.setUint32(at, text.length, true);
    bytes.set(text, at + 4);
    at += 4 + text.length;
  };
  put(maker!);
  view.setUint32(at, comments.length, true);
  at += 4;
  comments.forEach(put);
  return bytes;
}

/** Names of the Vorbis comment specification, and of common practice. */
function tagsOf({ title, comment, software, author, course, copyright, licence, tempo }: Label): readonly string[] {
  const tags = {
    TITLE: title,
    ARTIST: author,
    ALBUM: course,
    DESCRIPTION: comment,
    COPYRIGHT: copyright,
    LICENSE: licence,
    BPM: tempo,
    ENCODER: software,
  };
  return Object.entries(tags).flatMap(([name, value]) => (value === undefined ? [] : [`${name}=${value}`]));
}

function putUint24(view: DataView, at: number, value: number): void {
  view.setUint8(at, value >>> 16);
  view.setUint16(at + 1, value & 0xffff);
}
