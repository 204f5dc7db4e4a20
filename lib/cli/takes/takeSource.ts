import { createReadStream, statSync } from "node:fs";
import { basename } from "node:path";
import { failure, type Problem, placedUnder, problemsOf, type Result, success } from "../../index.js";
import { decodeSound, isSoundName, recordingCodes, type SoundStream, soundFormatOf } from "../../listen/index.js";
import { openSoundFile } from "../../node/index.js";
import { fingerprint, fingerprintOfPieces } from "../fingerprint.js";
import { argumentBytes, readHead } from "../input/inputFile.js";
import type { Terminal } from "../terminal.js";

const problem = problemsOf(recordingCodes);

/** Bytes of a file of takes, or of a recording that comes through a pipe; our choice: a JSON Lines file of some thousand takes, six minutes of stereo. */
const TAKE_LIMIT = 64_000_000;
/** Bytes that tell a recording from other files. */
const HEAD = 512;

/** What an argument leads to: a recording, which is read when it is listened to, or the bytes of something else. */
export type TakeSource =
  | { readonly kind: "sound"; readonly sound: SoundInput }
  | { readonly kind: "bytes"; readonly bytes: Uint8Array };

/** What a file or, for `-`, standard input holds. Recordings in files may be of any length. */
export async function takeSource(argument: string, terminal: Terminal): Promise<Result<TakeSource>> {
  if (argument !== "-" && isRegular(argument)) {
    const head = readHead(argument, HEAD);
    if (!head.ok) return head;
    // An empty file is as empty a take as it is a recording; only its name tells.
    if (isSound(argument, head.value)) return asSource(await soundInFile(argument));
  }
  const name = argument === "-" ? "standard input" : argument;
  const bytes = argumentBytes(argument, terminal, TAKE_LIMIT);
  if (!bytes.ok) return bytes;
  if (isSound(argument, bytes.value.subarray(0, HEAD))) return asSource(await soundInBytes(bytes.value, name));
  return success({ kind: "bytes", bytes: bytes.value });
}

/** The recording an argument leads to. */
export async function openSound(argument: string, terminal: Terminal): Promise<Result<SoundInput>> {
  const source = await takeSource(argument, terminal);
  if (!source.ok) return source;
  if (source.value.kind === "sound") return success(source.value.sound);
  const where = argument === "-" ? {} : { file: argument };
  return failure(problem("RECORDING_FORMAT_UNKNOWN", "it is no sound file of a known kind", where));
}

function asSource(sound: Result<SoundInput>): Result<TakeSource> {
  return sound.ok ? success({ kind: "sound", sound: sound.value }, sound.advice) : sound;
}

/** A pipe can be read once only: it is read whole. */
function isRegular(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isFile() === true;
}

/** A recording given on the command line. */
export interface SoundInput {
  /** The same for the same bytes, whatever they are called: a recording counts once. */
  readonly id: string;
  readonly open: () => SoundStream;
  /** What was found wrong with the file; complete when a sound has been gone through. */
  readonly problems: () => readonly Problem[];
}

/** Whether a file is a recording, by its first bytes or, where these say nothing, its name. */
function isSound(name: string, head: Uint8Array): boolean {
  const hasTag = head[0] === 0x49 && head[1] === 0x44 && head[2] === 0x33;
  return hasTag || soundFormatOf(head) !== undefined || isSoundName(name);
}

/** The recording in a file. */
export async function soundInFile(path: string): Promise<Result<SoundInput>> {
  const file = await openSoundFile(path);
  if (!file.ok) return file;
  const { open, problems } = file.value;
  const sum = await fingerprintOfPieces(createReadStream(path));
  return success({ id: `${basename(path)}#${sum}`, open, problems });
}

/** The recording in these bytes, which came from no file. */
async function soundInBytes(bytes: Uint8Array, name: string): Promise<Result<SoundInput>> {
  const opened = await decodeSound(bytes);
  if (!opened.ok) return failure(...opened.problems.map((each) => placedUnder(each, "", name)));
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
