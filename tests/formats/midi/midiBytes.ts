/** Builders of MIDI files byte by byte, so that tests can say exactly what is wrong with them. */

const ascii = (text: string): number[] => [...text].map((c) => c.charCodeAt(0));
const uint16 = (value: number): number[] => [value >> 8, value & 255];
const uint32 = (value: number): number[] => [value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];

export const chunk = (id: string, body: readonly number[]): number[] => [...ascii(id), ...uint32(body.length), ...body];
export const header = (format: number, tracks: number, division: number): number[] =>
  chunk("MThd", [...uint16(format), ...uint16(tracks), ...uint16(division)]);
export const END = [0x00, 0xff, 0x2f, 0x00];

/** A file of format 0 or 1 at 480 ticks to a quarter; every track gets its end. */
export function file(...tracks: readonly (readonly number[])[]): Uint8Array {
  const chunks = tracks.flatMap((track) => chunk("MTrk", [...track, ...END]));
  return Uint8Array.from([...header(tracks.length > 1 ? 1 : 0, tracks.length, 480), ...chunks]);
}

/** A variable-length quantity, written out from its definition: base 128, most significant first. */
export function quantity(value: number): number[] {
  const digits = [value % 128];
  for (let rest = Math.floor(value / 128); rest > 0; rest = Math.floor(rest / 128)) digits.unshift(128 + (rest % 128));
  return digits;
}

export const on = (delta: number, key: number, velocity = 64, channel = 0): number[] => [
  ...quantity(delta),
  0x90 + channel,
  key,
  velocity,
];
export const off = (delta: number, key: number, channel = 0): number[] => [...quantity(delta), 0x80 + channel, key, 64];
export const meta = (delta: number, kind: number, ...body: readonly number[]): number[] => [
  ...[...quantity(delta), 0xff, kind],
  ...[...quantity(body.length), ...body],
];
export const tempo = (delta: number, microseconds: number): number[] =>
  meta(delta, 0x51, ...uint32(microseconds).slice(1));
export const name = (text: string): number[] => meta(0, 0x03, ...ascii(text));
export { ascii, uint32 };
