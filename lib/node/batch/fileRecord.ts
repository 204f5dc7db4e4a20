import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import type { Label, SoundJob } from "../../render/sound/index.js";
import type { BatchFormat, FileRecord } from "./model.js";

/** Name of the record in the output folder: one line of JSON for each file. */
export const RECORD = "sound-files.jsonl";
/** Raised whenever the same score and options give other samples than before, so that older files are made anew. */
const SOUND_EDITION = 3;

/**
 * SHA-256 in hexadecimal digits.
 *
 * @example
 * sha256("tern").length // 64
 */
export function sha256(bytes: Uint8Array | string): string {
  return createHash("sha256").update(bytes).digest("hex");
}

interface Making {
  readonly job: SoundJob;
  readonly format: BatchFormat;
  readonly label: Label;
  /** SHA-256 of the sound bank. */
  readonly bank: string | undefined;
  readonly cover?: string | undefined;
}

/**
 * What a file is made from: the score but for what takes are held to, its label, how it is to sound, and the edition of what renders it. The same text,
 * the same bytes.
 */
export function madeFrom({ job, format, label, bank, cover }: Making): string {
  const { tolerance: _, ...sounding } = job.score;
  return sha256(JSON.stringify([SOUND_EDITION, sounding, label, format, bank ?? null, cover ?? null]));
}

/**
 * The files a folder's record names, by path; empty without a record. Lines that cannot be read, such as one cut short, are passed over.
 *
 * @example
 * (await readRecord("out/sound-files.jsonl")).size // 0
 */
export async function readRecord(path: string): Promise<ReadonlyMap<string, FileRecord>> {
  const text = await readFile(path, "utf8").catch(() => "");
  const entries = new Map<string, FileRecord>();
  for (const line of text.split("\n")) {
    const entry = entryOf(line);
    if (entry !== undefined) entries.set(entry.file, entry);
  }
  return entries;
}

function entryOf(line: string): FileRecord | undefined {
  try {
    const value: unknown = JSON.parse(line);
    if (value === null || typeof value !== "object") return undefined;
    const entry = value as Partial<Record<keyof FileRecord, unknown>>;
    const isEntry = [entry.file, entry.sha256, entry.from].every((text) => typeof text === "string");
    return isEntry ? (value as FileRecord) : undefined;
  } catch {
    return undefined;
  }
}

/** A record as it is written. */
export function recordText(entries: Iterable<FileRecord>): string {
  return [...entries].map((entry) => `${JSON.stringify(entry)}\n`).join("");
}
