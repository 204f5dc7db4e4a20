import { statSync } from "node:fs";
import { failure, type Result, success } from "../index.js";
import { readBytes, readHead, tooLarge } from "./files.js";
import type { Machine } from "./machine.js";
import { isSound, type SoundInput, soundInBytes, soundInFile } from "./soundInput.js";

/** Bytes of a file of takes, or of a recording that comes through a pipe; our choice: a JSON Lines file of some thousand takes, six minutes of stereo. */
const TAKE_LIMIT = 64_000_000;
/** Bytes that tell a recording from other files. */
const HEAD = 512;

/** What an argument leads to: a recording, which is read when it is listened to, or the bytes of something else. */
export type TakeSource =
  | { readonly kind: "sound"; readonly sound: SoundInput }
  | { readonly kind: "bytes"; readonly bytes: Uint8Array };

/** What a file or, for `-`, standard input holds. Recordings in files may be of any length. */
export async function takeSource(argument: string, machine: Machine): Promise<Result<TakeSource>> {
  if (argument !== "-" && isRegular(argument)) {
    const head = readHead(argument, HEAD);
    if (!head.ok) return head;
    // An empty file is as empty a take as it is a recording; only its name tells.
    if (isSound(argument, head.value)) return asSource(await soundInFile(argument));
  }
  const name = argument === "-" ? "standard input" : argument;
  const bytes = argument === "-" ? inputBytes(machine) : readBytes(argument, TAKE_LIMIT);
  if (!bytes.ok) return bytes;
  if (isSound(argument, bytes.value.subarray(0, HEAD))) return asSource(await soundInBytes(bytes.value, name));
  return success({ kind: "bytes", bytes: bytes.value });
}

function asSource(sound: Result<SoundInput>): Result<TakeSource> {
  return sound.ok ? success({ kind: "sound", sound: sound.value }, sound.advice) : sound;
}

function inputBytes(machine: Machine): Result<Uint8Array> {
  const bytes = machine.readInput(TAKE_LIMIT);
  return bytes === undefined ? failure(tooLarge("standard input", TAKE_LIMIT)) : success(bytes);
}

/** A pipe can be read once only: it is read whole. */
function isRegular(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isFile() === true;
}
