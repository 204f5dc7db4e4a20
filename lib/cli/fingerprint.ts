import type { Hash } from "node:crypto";

/** Hexadecimal digits of a fingerprint: 48 bits. A million takes of one name collide with probability 0.002. */
const DIGITS = 12;

/** The first digits of a SHA-256 of bytes, or of a value as JSON. JSON escapes lone surrogates, which bytes in UTF-8 would not distinguish. */
export function fingerprint(of: Uint8Array | readonly unknown[]): string {
  const content = of instanceof Uint8Array ? of : JSON.stringify(of);
  return sha256().update(content).digest("hex").slice(0, DIGITS);
}

/** The fingerprint of bytes that arrive in pieces; when reading fails, of the bytes before. */
export async function fingerprintOfPieces(pieces: AsyncIterable<Uint8Array>): Promise<string> {
  const hash = sha256();
  try {
    for await (const piece of pieces) hash.update(piece);
  } catch {
    // Reading the content later reports the error.
  }
  return hash.digest("hex").slice(0, DIGITS);
}

/** Node's hashes are loaded where the first fingerprint is taken: most commands take none. */
function sha256(): Hash {
  return process.getBuiltinModule("node:crypto").createHash("sha256");
}
