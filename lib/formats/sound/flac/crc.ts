/** Checksum tables of FLAC frames (RFC 9639, sections 9.1.8 and 9.3). */
const HEADER: Uint8Array = Uint8Array.from({ length: 256 }, (_, byte) => divided(byte, 0x07, 8));
const FRAME: Uint16Array = Uint16Array.from({ length: 256 }, (_, byte) => divided(byte << 8, 0x8005, 16));

function divided(start: number, polynomial: number, bits: number): number {
  let rest = start;
  for (let i = 0; i < 8; i++) rest = rest & (1 << (bits - 1)) ? (rest << 1) ^ polynomial : rest << 1;
  return rest & (2 ** bits - 1);
}

/** CRC-8 of a frame header: x^8 + x^2 + x + 1, from 0. */
export function crc8(bytes: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < bytes.length; i++) sum = HEADER[sum ^ bytes[i]!]!;
  return sum;
}

/** CRC-16 of a frame: x^16 + x^15 + x^2 + 1, from 0. */
export function crc16(bytes: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < bytes.length; i++) sum = ((sum << 8) & 0xffff) ^ FRAME[(sum >> 8) ^ bytes[i]!]!;
  return sum;
}
