import { statSync } from "node:fs";
import { failure, problemsOf, type Result, success } from "../../base/index.js";
import { isSoundName, recordingCodes, soundFormatOf } from "../../listen/index.js";
import { argumentBytes, readHead } from "../input/inputFile.js";
import { STANDARD_INPUT } from "../input/placeName.js";
import { sayProblem } from "../say.js";
import type { Terminal } from "../terminal.js";
import type { SoundInput } from "./soundInput.js";

const problem = problemsOf(recordingCodes);

/** Most bytes of a file of takes, or of a recording from a pipe; our choice: a JSON Lines file of some thousand takes, six minutes of stereo. */
const TAKE_LIMIT = 64_000_000;
/** Bytes needed to recognise a recording. */
const HEAD = 512;

/** The content of an argument: a recording, which is read during listening, or the bytes of another file. */
export type TakeSource =
  | { readonly kind: "sound"; readonly sound: SoundInput }
  | { readonly kind: "bytes"; readonly bytes: Uint8Array };

/** Reads a file or, for `-`, standard input. Recordings in files may have any length. */
export async function takeSource(argument: string, terminal: Terminal): Promise<Result<TakeSource>> {
  if (argument !== "-" && isRegular(argument)) {
    const head = readHead(argument, HEAD);
    if (!head.ok) return head;
    // The name of an empty file decides whether it is a take or a recording.
    if (isSound(argument, head.value)) return asSource(await (await decoding()).soundInFile(argument));
  }
  const name = argument === "-" ? STANDARD_INPUT : argument;
  const bytes = argumentBytes(argument, terminal, TAKE_LIMIT);
  if (!bytes.ok) return bytes;
  if (isSound(argument, bytes.value.subarray(0, HEAD)))
    return asSource(await (await decoding()).soundInBytes(bytes.value, name));
  return success({ kind: "bytes", bytes: bytes.value });
}

/** The recording that an argument names. */
export async function openSound(argument: string, terminal: Terminal): Promise<Result<SoundInput>> {
  const source = await takeSource(argument, terminal);
  if (!source.ok) return source;
  if (source.value.kind === "sound") return success(source.value.sound);
  const where = argument === "-" ? {} : { file: argument };
  return failure(problem("RECORDING_FORMAT_UNKNOWN", sayProblem("cli-problem.recording-format-unknown"), where));
}

/** Decoders are loaded for recordings only. */
function decoding(): Promise<typeof import("./soundInput.js")> {
  return import("./soundInput.js");
}

function asSource(sound: Result<SoundInput>): Result<TakeSource> {
  return sound.ok ? success({ kind: "sound", sound: sound.value }, sound.advice) : sound;
}

/** Reads a pipe whole, as it can be read only once. */
function isRegular(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isFile() === true;
}

/** Whether a file is a recording, by its first bytes or, when these are of no known format, by its name. */
function isSound(name: string, head: Uint8Array): boolean {
  const hasTag = head[0] === 0x49 && head[1] === 0x44 && head[2] === 0x33;
  return hasTag || soundFormatOf(head) !== undefined || isSoundName(name);
}
