import { open } from "node:fs/promises";

/** Bytes read at a time. */
const PORTION = 262_144;

/**
 * The bytes of a regular file in pieces. The file is opened for each anew, so that nothing stays open when the rest is not wanted.
 * Throws the system's error.
 */
export async function* fileBytes(path: string): AsyncGenerator<Uint8Array> {
  for (let at = 0; ; ) {
    const piece = await pieceAt(path, at);
    if (piece.length === 0) return;
    yield piece;
    at += piece.length;
  }
}

async function pieceAt(path: string, at: number): Promise<Uint8Array> {
  const file = await open(path, "r");
  try {
    const piece = new Uint8Array(PORTION);
    const { bytesRead } = await file.read(piece, 0, PORTION, at);
    return piece.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}
