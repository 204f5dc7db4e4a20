import { type Bits, quantised } from "../pcm.js";
import type { Label, StereoSound } from "../stereoSound.js";

/** Options of a WAV file. */
export interface WavOptions {
  /** 16 or 24 bit whole numbers, or 32 bit floating point; 24 when left out. */
  readonly samples?: Bits | "float";
  /** Seed of the dither added to whole numbers; none is added without. */
  readonly dither?: number | string | undefined;
  /** Title, software and comment. */
  readonly label?: Label;
}

const WHOLE_NUMBERS = 1;
const FLOATING_POINT = 3;
/** Sizes in RIFF have 32 bits. */
const LARGEST = 0xffffffff;

/**
 * Encodes a sound as a WAV file (RIFF WAVE, stereo), with title, software and comment in its INFO list.
 *
 * Throws `RangeError` for a sound that does not fit into the 4 GB of the format.
 *
 * @example
 * soundFormatOf(encodeWav({ rate: 48000, channels: [new Float32Array(480), new Float32Array(480)] })) // "WAV"
 */
export function encodeWav(sound: StereoSound, { samples = 24, dither, label }: WavOptions = {}): Uint8Array {
  const width = samples === "float" ? 4 : samples / 8;
  const frame = 2 * width;
  const format = chunk("fmt ", formatOf(samples, sound.rate));
  const info = label === undefined ? new Uint8Array(0) : chunk("LIST", joined([ascii("INFO"), ...infoOf(label)]));
  // Formats other than whole numbers have a `fact` chunk with the number of samples.
  const fact = samples === "float" ? chunk("fact", uint32(sound.channels[0].length)) : new Uint8Array(0);
  const before = joined([format, fact, info]);
  const size = sound.channels[0].length * frame;
  const total = 12 + before.length + 8 + size;
  if (total - 8 > LARGEST) throw new RangeError(`a WAV file holds at most 4 GB, this one would have ${total} bytes`);
  const file = new Uint8Array(total);
  file.set(joined([ascii("RIFF"), uint32(total - 8), ascii("WAVE"), before, ascii("data"), uint32(size)]));
  const data = new DataView(file.buffer, total - size);
  if (samples === "float") writeFloats(data, sound.channels);
  else writeNumbers(data, quantised(sound.channels, { bits: samples, dither }), width);
  return file;
}

function formatOf(samples: Bits | "float", rate: number): Uint8Array {
  const width = samples === "float" ? 4 : samples / 8;
  const view = new DataView(new ArrayBuffer(16));
  view.setUint16(0, samples === "float" ? FLOATING_POINT : WHOLE_NUMBERS, true);
  view.setUint16(2, 2, true);
  view.setUint32(4, rate, true);
  view.setUint32(8, rate * 2 * width, true);
  view.setUint16(12, 2 * width, true);
  view.setUint16(14, 8 * width, true);
  return new Uint8Array(view.buffer);
}

function infoOf({ title, comment, software, author, course, copyright }: Label): readonly Uint8Array[] {
  const text = (name: string, value: string): Uint8Array =>
    chunk(name, joined([new TextEncoder().encode(value), new Uint8Array(1)]));
  const tags = { INAM: title, IART: author, IPRD: course, ICOP: copyright, ISFT: software, ICMT: comment };
  return Object.entries(tags).flatMap(([name, value]) => (value === undefined ? [] : [text(name, value)]));
}

function writeFloats(data: DataView, [left, right]: StereoSound["channels"]): void {
  for (let i = 0; i < left.length; i++) {
    data.setFloat32(8 * i, left[i]!, true);
    data.setFloat32(8 * i + 4, right[i]!, true);
  }
}

function writeNumbers(data: DataView, numbers: Int32Array, width: number): void {
  for (let i = 0, at = 0; i < numbers.length; i++, at += width) {
    const value = numbers[i]!;
    data.setInt16(at, width === 2 ? value : value & 0xffff, true);
    if (width === 3) data.setInt8(at + 2, value >> 16);
  }
}

/** A chunk, padded to an even number of bytes. Its size is without the padding. */
function chunk(name: string, content: Uint8Array): Uint8Array {
  return joined([ascii(name), uint32(content.length), content, new Uint8Array(content.length % 2)]);
}

function ascii(text: string): Uint8Array {
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

function uint32(value: number): Uint8Array {
  return Uint8Array.of(value, value >>> 8, value >>> 16, value >>> 24);
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
