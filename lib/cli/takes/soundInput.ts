import { createReadStream } from "node:fs";
import { basename } from "node:path";
import { failureIn, type Problem, placedUnder, type Result, success } from "../../base/index.js";
import { decodeSound, type SoundStream } from "../../listen/index.js";
import { openSoundFile } from "../../node/index.js";
import { fingerprint, fingerprintOfPieces } from "../fingerprint.js";

/** A recording given on the command line. */
export interface SoundInput {
  /** A fingerprint of its bytes, without its name: a recording counts once. */
  readonly id: string;
  readonly open: () => SoundStream;
  /** Problems of the file; complete after its sound was consumed. */
  readonly problems: () => readonly Problem[];
}

/** The recording in a file. */
export async function soundInFile(path: string): Promise<Result<SoundInput>> {
  const file = await openSoundFile(path);
  if (!file.ok) return file;
  const { open, problems } = file.value;
  const sum = await fingerprintOfPieces(createReadStream(path));
  return success({ id: `${basename(path)}#${sum}`, open, problems });
}

/** The recording in bytes that come from a pipe. */
export async function soundInBytes(bytes: Uint8Array, name: string): Promise<Result<SoundInput>> {
  const opened = await decodeSound(bytes);
  if (!opened.ok) return failureIn(name, opened.problems);
  const found = new Map<string, Problem>();
  const open = async function* (): SoundStream {
    const again = await decodeSound(bytes);
    if (!again.ok) return;
    yield* again.value.sound;
    for (const each of again.value.problems()) found.set(each.code, placedUnder(each, "", name));
  };
  const id = `take#${fingerprint(bytes)}`;
  return success({ id, open, problems: () => [...found.values()] });
}
