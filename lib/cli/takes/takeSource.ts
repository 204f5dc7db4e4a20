import { statSync } from "node:fs";
import { failure, problemsOf, type Result, success } from "../../index.js";
import { isSoundName, recordingCodes, soundFormatOf } from "../../listen/index.js";
import { argumentBytes, readHead } from "../input/inputFile.js";
import type { Terminal } from "../terminal.js";
import type { SoundInput } from "./soundInput.js";

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
    if (isSound(argument, head.value)) return asSource(await (await decoding()).soundInFile(argument));
  }
  const name = argument === "-" ? "standard input" : argument;
  const bytes = argumentBytes(argument, terminal, TAKE_LIMIT);
  if (!bytes.ok) return bytes;
  if (isSound(argument, bytes.value.subarray(0, HEAD)))
    return asSource(await (await decoding()).soundInBytes(bytes.value, name));
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

/** Decoders are loaded for recordings only. */
function decoding(): Promise<typeof import("./soundInput.js")> {
  return import("./soundInput.js");
}

function asSource(sound: Result<SoundInput>): Result<TakeSource> {
  return sound.ok ? success({ kind: "sound", sound: sound.value }, sound.advice) : sound;
}

/** A pipe can be read once only: it is read whole. */
function isRegular(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isFile() === true;
}

/** Whether a file is a recording, by its first bytes or, where these say nothing, its name. */
function isSound(name: string, head: Uint8Array): boolean {
  const hasTag = head[0] === 0x49 && head[1] === 0x44 && head[2] === 0x33;
  return hasTag || soundFormatOf(head) !== undefined || isSoundName(name);
}
