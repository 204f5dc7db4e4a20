import { byteReader, SNIFFED, type SoundFormat, skipTags, soundFormatOf } from "../../formats/sound/index.js";
import { fileBytes } from "./fileBytes.js";

/** The kind of sound file by the beginning of its content, after its tags. */
export async function formatOfFile(path: string): Promise<SoundFormat | undefined> {
  const reader = byteReader(fileBytes(path));
  await skipTags(reader);
  await reader.fill(SNIFFED);
  return soundFormatOf(reader.peek(SNIFFED));
}
