import { byteReader } from "../file/byteReader.js";
import { skipTags } from "../file/id3.js";
import { SNIFFED, type SoundFormat, soundFormatOf } from "../file/index.js";
import { fileBytes } from "./fileBytes.js";

/** The kind of sound file by the beginning of its content, after its tags. */
export async function formatOfFile(path: string): Promise<SoundFormat | undefined> {
  const reader = byteReader(fileBytes(path));
  await skipTags(reader);
  await reader.fill(SNIFFED);
  return soundFormatOf(reader.peek(SNIFFED));
}
