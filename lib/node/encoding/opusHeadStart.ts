/** Samples, at 48 kHz, by which an encoder of Opus is late, as libopus is with what it encodes as music; the files say how many it really was. */
export const HEAD_START = 312;

/** Where an Ogg page has its checksum, and where one that begins a stream of Opus has its content (RFC 3533, section 6: 27 bytes and one length). */
const CHECKSUM = 22;
const CONTENT = 28;
/** Where the content says how many samples a player leaves out, 16 bits (RFC 7845, section 5.1). */
const LEFT_OUT = CONTENT + 10;
/** Length of the content for one or two channels. */
const LENGTH = 19;

/**
 * An Opus file (Ogg) of which players leave out `HEAD_START` samples less. A sound that lacks its first `HEAD_START` samples is then heard at its time without any being left out: WebM
 * has times in thousandths of a second, and programs do not agree on whether what is left out counts in them.
 */
export function withoutHeadStart(file: Uint8Array): Uint8Array {
  const made = file.slice();
  const view = new DataView(made.buffer);
  view.setUint16(LEFT_OUT, Math.max(0, view.getUint16(LEFT_OUT, true) - HEAD_START), true);
  view.setUint32(CHECKSUM, 0, true);
  view.setUint32(CHECKSUM, checksum(made.subarray(0, CONTENT + LENGTH)), true);
  return made;
}

/** The checksum of an Ogg page: CRC-32 with the polynomial 0x04c11db7, from 0, bits not reversed (RFC 3533, section 6). */
function checksum(page: Uint8Array): number {
  let sum = 0;
  for (const byte of page) {
    sum ^= byte << 24;
    for (let bit = 0; bit < 8; bit++) sum = sum & 0x80000000 ? (sum << 1) ^ 0x04c11db7 : sum << 1;
  }
  return sum >>> 0;
}
