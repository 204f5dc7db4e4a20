import { readFile } from "node:fs/promises";
import { failure, failureIn, problemsOf, type Result, success } from "../../base/index.js";
import type { SoundBank } from "../../render/sound/index.js";
import { readSoundBank } from "../../render/sound/index.js";
import { nodeCodes } from "../codes.js";
import { codeOf } from "../fileProblem.js";
import { sayProblem } from "../say.js";
import { sha256 } from "./fileRecord.js";

const problem = problemsOf(nodeCodes);

/** A bank's bytes in memory that threads share, and their SHA-256. */
export interface BankBytes {
  readonly bytes: Uint8Array;
  readonly sum: string;
}

/**
 * A sound bank from a file. Problems: SOUND_BANK_NOT_FOUND, SOUND_BANK_NOT_READ.
 *
 * @example
 * (await openSoundBank("missing.sf2")).ok // false
 */
export async function openSoundBank(path: string): Promise<Result<SoundBank>> {
  const bytes = await bytesOf(path);
  return bytes.ok ? bankFrom(bytes.value, path) : bytes;
}

/** The bytes of a sound bank that can be read, for threads to read it again. Problems as `openSoundBank`. */
export async function soundBankBytes(path: string): Promise<Result<BankBytes>> {
  const read = await bytesOf(path);
  if (!read.ok) return read;
  const bank = await bankFrom(read.value, path);
  if (!bank.ok) return bank;
  const bytes = new Uint8Array(new SharedArrayBuffer(read.value.length));
  bytes.set(read.value);
  return success({ bytes, sum: sha256(read.value) });
}

async function bytesOf(path: string): Promise<Result<Uint8Array>> {
  try {
    return success(await readFile(path));
  } catch (error) {
    const reason = codeOf(error) ?? ({ key: "node-problem.unknown-reason", parameters: {} } as const);
    const message = sayProblem("node-problem.sound-bank-not-found", { error: reason });
    const remedy = sayProblem("node-problem.sound-bank-not-found-remedy");
    return failure(problem("SOUND_BANK_NOT_FOUND", message, { file: path }, remedy));
  }
}

async function bankFrom(bytes: Uint8Array, path: string): Promise<Result<SoundBank>> {
  const bank = await readSoundBank(bytes);
  return bank.ok ? bank : failureIn(path, bank.problems);
}
