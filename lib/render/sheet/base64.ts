const ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
/** The two letters of every twelve bits: half as many steps as letter by letter. */
const PAIRS: readonly string[] = Array.from({ length: 4096 }, (_, bits) => ALPHABET[bits >> 6]! + ALPHABET[bits & 63]!);

/** Bytes as base64 (RFC 4648, section 4), with padding. Written here because browsers and Node 20 have no common function that takes bytes. */
export function base64(bytes: Uint8Array): string {
  let text = "";
  for (let i = 0; i < bytes.length; i += 3) {
    const bits = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    text += PAIRS[bits >> 12]! + PAIRS[bits & 4095]!;
  }
  const missing = (3 - (bytes.length % 3)) % 3;
  return missing === 0 ? text : text.slice(0, -missing) + "=".repeat(missing);
}
