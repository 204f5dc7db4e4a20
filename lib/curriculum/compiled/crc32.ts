/** The generator polynomial of CRC-32, bits reversed (ISO/IEC 3309; RFC 1952, section 8). */
const POLYNOMIAL = 0xedb88320;

/** The CRC-32 of bytes: finds every change within 32 neighbouring bits, and misses one in 4 billion of other changes. It is no protection against intent. */
export function crc32(bytes: Uint8Array): number {
  const table = Uint32Array.from({ length: 256 }, (_, i) => {
    let value = i;
    for (let bit = 0; bit < 8; bit++) value = (value >>> 1) ^ (value & 1 ? POLYNOMIAL : 0);
    return value;
  });
  let sum = 0xffffffff;
  for (const byte of bytes) sum = (sum >>> 8) ^ table[(sum ^ byte) & 0xff]!;
  return (sum ^ 0xffffffff) >>> 0;
}
