import { workerData } from "node:worker_threads";
import type { SoundBank } from "../../render/sound/index.js";
import { readSoundBank } from "../../render/sound/index.js";
import type { Result } from "../problem.js";
import { type FileMade, type FileTask, renderFile } from "./renderFile.js";

/** The bank's bytes, shared by all threads; each thread reads them once. */
let bank: Promise<Result<SoundBank>> | undefined;

/** What a rendering thread does: makes one file. */
export default async function work(task: FileTask): Promise<Result<FileMade>> {
  const shared = sharedBank();
  if (shared === undefined) return renderFile(task, undefined);
  bank ??= readSoundBank(shared);
  const read = await bank;
  return read.ok ? renderFile(task, read.value) : read;
}

/** The pool hands its data over as the second of two. */
function sharedBank(): Uint8Array | undefined {
  const [, data] = workerData as readonly [unknown, { readonly bank?: Uint8Array } | undefined];
  return data?.bank;
}
