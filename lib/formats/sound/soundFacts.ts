import { type SoundFormat, soundFormatOf } from "./format/index.js";

/** What the head of a sound file says. */
export interface SoundFacts {
  /** Absent for a file that is no sound file. */
  readonly format?: SoundFormat;
  /** Its length in seconds; absent where the head does not state it. */
  readonly seconds?: number;
}

/** Bytes of a head in which the samples of a WAV file are looked for; our choice, pictures of a cover stand behind the samples as a rule. */
export const HEAD = 262_144;

/**
 * What the first bytes of a file say, its length in bytes known: its format, and for WAV and FLAC its length in seconds. Nothing is decoded, and nothing
 * is promised about the rest of the file. Pass `HEAD` bytes, or the whole file when it is shorter.
 *
 * @example
 * soundFacts(new Uint8Array([0x4d, 0x54, 0x68, 0x64]), 4) // {}: a MIDI file is no sound file
 */
export function soundFacts(head: Uint8Array, size: number): SoundFacts {
  const format = soundFormatOf(head.subarray(tagsIn(head)));
  if (format === undefined) return {};
  const seconds = format === "WAV" ? wavSeconds(head, size) : format === "FLAC" ? flacSeconds(head) : undefined;
  return { format, ...(seconds === undefined ? {} : { seconds }) };
}

/** The length of an ID3v2 tag before the sound: ten bytes and a size of four times seven bits. */
function tagsIn(head: Uint8Array): number {
  if (letters(head, 0, 3) !== "ID3" || head.length < 10) return 0;
  return 10 + head.subarray(6, 10).reduce((sum, byte) => sum * 128 + (byte & 0x7f), 0);
}

/** Samples by the chunks `fmt ` and `data`; a size that is larger than the file, or unstated, ends with the file. */
function wavSeconds(head: Uint8Array, size: number): number | undefined {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  let bytesPerSecond = 0;
  for (let at = 12; at + 8 <= head.length; ) {
    const name = letters(head, at, 4);
    const length = view.getUint32(at + 4, true);
    if (name === "fmt " && at + 20 <= head.length) bytesPerSecond = view.getUint32(at + 16, true);
    if (name === "data")
      return bytesPerSecond > 0 ? Math.max(0, Math.min(length, size - at - 8)) / bytesPerSecond : undefined;
    at += 8 + length + (length % 2);
  }
  return undefined;
}

/** Samples and rate of the stream information (RFC 9639, section 8.2). */
function flacSeconds(head: Uint8Array): number | undefined {
  if (head.length < 26) return undefined;
  const view = new DataView(head.buffer, head.byteOffset + 8);
  const packed = view.getUint32(10);
  const samples = (packed & 0xf) * 2 ** 32 + view.getUint32(14);
  const rate = packed >>> 12;
  return samples > 0 && rate > 0 ? samples / rate : undefined;
}

function letters(bytes: Uint8Array, from: number, count: number): string {
  return String.fromCharCode(...bytes.subarray(from, from + count));
}
