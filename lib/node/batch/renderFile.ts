import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { failure, success } from "../../base/index.js";
import { encodeFlac, encodeWav } from "../../formats/sound/index.js";
import type { Label, Sound, SoundBank, SoundJob } from "../../render/sound/index.js";
import { renderSound } from "../../render/sound/index.js";
import { type EncodedSound, encodeSound } from "../encoding/encodeSound.js";
import { isEncoded } from "../encoding/formats.js";
import type { Problem, Result } from "../problem.js";
import { readyRecordings } from "../recording/readyRecordings.js";
import { writeWhole } from "../writeWhole.js";
import { madeFrom, sha256 } from "./fileRecord.js";
import type { BatchFormat, FileRecord } from "./model.js";

/** A file to be made, or kept where it is there already. */
export interface FileTask {
  readonly job: SoundJob;
  readonly format: BatchFormat;
  /** Title and comment of the file, worded: a thread has no languages. */
  readonly label: Label;
  readonly folder: string;
  /** What the record of an earlier run says of it. */
  readonly earlier: FileRecord | undefined;
  /** SHA-256 of the sound bank. */
  readonly bank: string | undefined;
  /** The recordings of the score: name in the course -> path on this machine. */
  readonly recordings: Readonly<Record<string, string>>;
  /** Picture of a compressed file, SVG. */
  readonly cover: string | undefined;
}

export interface FileMade {
  readonly entry: FileRecord;
  readonly kept: boolean;
  readonly advice: readonly Problem[];
}

/** Makes the file of a task, unless an earlier run did and it is as that run left it. */
export async function renderFile(task: FileTask, bank: SoundBank | undefined): Promise<Result<FileMade>> {
  const { job, format, label, folder, earlier } = task;
  const file = `${job.file}.${format.as}`;
  const path = join(folder, ...file.split("/"));
  const from = madeFrom({ job, format, label, bank: task.bank, cover: task.cover });
  if (earlier?.from === from && (await isAsRecorded(path, earlier)))
    return success({ entry: earlier, kept: true, advice: [] });
  const { rate, loudness, peak, loop } = format;
  const recordings = await readyRecordings(job.score, { pathOf: (file) => task.recordings[file], rate });
  if (!recordings.ok) return failure(...recordings.problems);
  const rendered = renderSound(job.score, {
    recordings: recordings.value,
    rate,
    loudness,
    peak,
    ...(bank === undefined ? {} : { bank }),
    ...(loop === undefined ? {} : { loop: { phrases: loop } }),
  });
  if (!rendered.ok)
    return failure(...rendered.problems.map((each) => ({ ...each, where: { ...each.where, file: path } })));
  const sound = rendered.value;
  const made = await encoded(sound, task);
  if (!made.ok) return failure(...made.problems.map((each) => ({ ...each, where: { ...each.where, file: path } })));
  const { bytes } = made.value;
  const written = await writeWhole(path, bytes);
  if (!written.ok) return written;
  const entry: FileRecord = {
    file,
    bytes: bytes.length,
    sha256: sha256(bytes),
    from,
    drill: job.score.drill,
    rung: job.score.rung,
    mix: job.score.mix,
    rate: sound.rate,
    length: sound.channels[0].length,
    downbeat: sound.downbeat,
    loudness: hundredths(made.value.loudness),
    peak: hundredths(made.value.peak),
    heldBack: sound.heldBack,
    caution: label.comment,
  };
  return success({ entry, kept: false, advice: sound.advice });
}

async function encoded(sound: Sound, { label, format, cover }: FileTask): Promise<Result<EncodedSound>> {
  const { as, samples, dither, peak } = format;
  if (isEncoded(as)) return encodeSound(sound, { as, label, peak, cover });
  const options = { dither: dither ?? undefined, label };
  const level = { loudness: sound.loudness, peak: sound.peak };
  if (as === "wav") return success({ bytes: encodeWav(sound, { ...options, samples }), ...level });
  if (samples === "float") throw new RangeError("FLAC holds whole numbers: samples is 16 or 24, got float");
  return success({ bytes: encodeFlac(sound, { ...options, samples }), ...level });
}

async function isAsRecorded(path: string, { bytes, sha256: sum }: FileRecord): Promise<boolean> {
  const found = await readFile(path).catch(() => undefined);
  return found !== undefined && found.length === bytes && sha256(found) === sum;
}

function hundredths(value: number | undefined): number | null {
  return value === undefined ? null : Math.round(value * 100) / 100;
}
