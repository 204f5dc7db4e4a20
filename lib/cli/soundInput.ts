import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { basename } from "node:path";
import { failure, type Problem, placedUnder, type Result, success } from "../index.js";
import { decodeSound, isSoundName, type SoundStream, soundFormatOf } from "../listen/index.js";
import { openSoundFile } from "../node/index.js";

/** A recording given on the command line. */
export interface SoundInput {
  /** The same for the same bytes, whatever they are called: a recording counts once. */
  readonly id: string;
  readonly open: () => SoundStream;
  /** What was found wrong with the file; complete when a sound has been gone through. */
  readonly problems: () => readonly Problem[];
}

/** Hexadecimal digits of the fingerprint, as of other takes. */
const DIGITS = 12;

/** Whether a file is a recording, by its first bytes or, where these say nothing, its name. */
export function isSound(name: string, head: Uint8Array): boolean {
  const hasTag = head[0] === 0x49 && head[1] === 0x44 && head[2] === 0x33;
  return hasTag || soundFormatOf(head) !== undefined || isSoundName(name);
}

/** The recording in a file. */
export async function soundInFile(path: string): Promise<Result<SoundInput>> {
  const file = await openSoundFile(path);
  if (!file.ok) return file;
  const { open, problems } = file.value;
  const hash = createHash("sha256");
  try {
    for await (const piece of createReadStream(path)) hash.update(piece as Uint8Array);
  } catch {
    // Going through the sound says what is wrong with the file.
  }
  return success({ id: `${basename(path)}#${hash.digest("hex").slice(0, DIGITS)}`, open, problems });
}

/** The recording in these bytes, which came from no file. */
export async function soundInBytes(bytes: Uint8Array, name: string): Promise<Result<SoundInput>> {
  const opened = await decodeSound(bytes);
  if (!opened.ok) return failure(...opened.problems.map((each) => placedUnder(each, "", name)));
  const found = new Map<string, Problem>();
  const open = async function* (): SoundStream {
    const again = await decodeSound(bytes);
    if (!again.ok) return;
    yield* again.value.sound;
    for (const each of again.value.problems()) found.set(each.code, placedUnder(each, "", name));
  };
  const id = `take#${createHash("sha256").update(bytes).digest("hex").slice(0, DIGITS)}`;
  return success({ id, open, problems: () => [...found.values()] });
}
