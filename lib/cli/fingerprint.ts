import { createHash } from "node:crypto";

/** Hexadecimal digits of a fingerprint: 48 bits, so that a million takes of one name collide with probability 0.002. */
const DIGITS = 12;

/** The beginning of a SHA-256 in hexadecimal digits: of bytes, or of a value as JSON, which spells out halves of characters that bytes could not tell apart. */
export function fingerprint(of: Uint8Array | readonly unknown[]): string {
  const content = of instanceof Uint8Array ? of : JSON.stringify(of);
  return createHash("sha256").update(content).digest("hex").slice(0, DIGITS);
}

/** The fingerprint of bytes that come in pieces; where their reading fails, of those before. */
export async function fingerprintOfPieces(pieces: AsyncIterable<Uint8Array>): Promise<string> {
  const hash = createHash("sha256");
  try {
    for await (const piece of pieces) hash.update(piece);
  } catch {
    // Going through the content says what is wrong with it.
  }
  return hash.digest("hex").slice(0, DIGITS);
}
