import type { ByteReader } from "./byteReader.js";

const HEAD = 10;
const HAS_FOOTER = 0x10;
/** Most tags skipped before the sound; our choice: some programs write a second tag. */
const MOST = 8;

/** Skips ID3v2 tags at the beginning, with their pictures (id3.org, ID3v2.4, section 3.1). */
export async function skipTags(reader: ByteReader): Promise<void> {
  for (let count = 0; count < MOST && (await reader.fill(HEAD)) >= HEAD; count++) {
    const head = reader.peek(HEAD);
    if (head[0] !== 0x49 || head[1] !== 0x44 || head[2] !== 0x33) return;
    const size = head.subarray(6).reduce((sum, byte) => sum * 128 + (byte & 127), 0);
    await reader.skip(HEAD + size + (head[5]! & HAS_FOOTER ? HEAD : 0));
  }
}
