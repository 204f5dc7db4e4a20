import { appendFile } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";
import { Tinypool } from "tinypool";
import { failure, problemsOf, success } from "../../base/index.js";
import { stripChart } from "../../render/index.js";
import { labelOf, type Makers, type SoundJobs, type SoundWords } from "../../render/sound/index.js";
import type { Score } from "../../schema/index.js";
import { nodeCodes } from "../codes.js";
import { coverNotDrawn } from "../encoding/encodeSound.js";
import { ffmpegFor } from "../encoding/ffmpegHere.js";
import { isEncoded } from "../encoding/formats.js";
import { textOf, writeProblem } from "../fileProblem.js";
import type { Problem, Result } from "../problem.js";
import { sayProblem } from "../say.js";
import { makeFolder, removeUnfinished, writeIfOther } from "../writeWhole.js";
import { runConcurrently } from "./concurrentTasks.js";
import { endPool } from "./endPool.js";
import { RECORD, readRecord, recordText } from "./fileRecord.js";
import { type Batch, type BatchFormat, type BatchProgress, batchFormat, type FileRecord } from "./model.js";
import { type BankBytes, soundBankBytes } from "./openSoundBank.js";
import type { FileMade, FileTask } from "./renderFile.js";

const problem = problemsOf(nodeCodes);

/** What a batch is to do beside its jobs. */
export interface BatchOptions extends Partial<BatchFormat> {
  /** Where the files go; made when it is not there. */
  readonly folder: string;
  /** Name of the record in the folder; "sound-files.jsonl" when left out. */
  readonly record?: string | undefined;
  /** Path of a sound bank; the built-in voices play without. It is read once, at the start. */
  readonly bank?: string | undefined;
  /** The path on this machine of a recording, by its name in the course; `undefined` when it is not there. Needed for scores that play recordings. */
  readonly recordings?: ((file: string) => string | undefined) | undefined;
  /** Threads that render at the same time; one for each core when left out. */
  readonly threads?: number | undefined;
  /** The language of the labels in the files; English when left out. */
  readonly words?: SoundWords | undefined;
  /** Who made the course, for the labels. */
  readonly makers?: Makers | undefined;
  /** Called after every file, in the order they are finished. */
  readonly onProgress?: ((progress: BatchProgress) => void) | undefined;
  /** Stops the batch; what is finished stays. */
  readonly signal?: AbortSignal | undefined;
}

/**
 * Renders many scores to files on all cores, with a record beside them: one line of JSON a file, its checksum and what it was made from.
 *
 * Files appear under their names only when they are whole. Run again after an interruption, it keeps what the record names and the disk
 * still holds, byte for byte, and makes the rest; the same jobs and options give the same bytes. 24-bit WAV at 44.1 kHz when nothing
 * else is asked for. One batch at a time to a folder.
 *
 * Problems: those of writing (OUTPUT_...), of the bank (SOUND_BANK_...), of encoding (SOUND_ENCOD...) and of `renderSound`, RENDERING_STOPPED, RENDERING_FAILED; the
 * first stops the batch. Throws `RangeError` for options outside their range.
 *
 * @example
 * const jobs = soundJobs(drill);
 * if (jobs.ok) await renderBatch(jobs.value, { folder: "out", as: "flac", onProgress: ({ done, total }) => console.log(done, total) });
 */
export async function renderBatch(jobs: SoundJobs, options: BatchOptions): Promise<Result<Batch>> {
  const format = batchFormat(options);
  const { folder, threads = availableParallelism() } = options;
  if (!(Number.isInteger(threads) && threads >= 1))
    throw new RangeError(`threads is a whole number from 1, got ${threads}`);
  const bank = options.bank === undefined ? undefined : await soundBankBytes(options.bank);
  if (bank?.ok === false) return bank;
  const ffmpeg = isEncoded(format.as) ? await ffmpegFor(format.as) : undefined;
  if (ffmpeg?.ok === false) return ffmpeg;
  const folders = foldersOf(jobs, folder);
  for (const path of folders) {
    const made = await makeFolder(path);
    if (!made.ok) return made;
    await removeUnfinished(path);
  }
  const made = await makeFiles(jobs, {
    ...options,
    format,
    threads,
    bank: bank?.value,
    draws: ffmpeg?.value.draws === true,
  });
  for (const path of folders) await removeUnfinished(path);
  if (!made.ok) return made;
  const files = made.value.map(({ entry }) => entry);
  const record = join(folder, options.record ?? RECORD);
  const noted = await writeRecord(record, files);
  if (!noted.ok) return noted;
  const isWithoutCover = ffmpeg?.value.draws === false;
  const advice = distinct([
    ...(isWithoutCover ? [coverNotDrawn("built")] : []),
    ...made.value.flatMap((one) => one.advice),
    ...levelAdvice(files, format),
  ]);
  return success({ files, kept: made.value.filter(({ kept }) => kept).length, record }, advice);
}

/** How far a programme may be from its loudness, LU (EBU R 128-2023, which has more for what is live). */
const LOUDNESS_TOLERANCE = 0.5;
/** Excess of a peak that is passed over, dB: our choice, below the error with which peaks between samples are read. */
const PEAK_TOLERANCE = 0.1;

/** What is to be said of the levels of finished files: that some are quieter than asked, or peak higher than they should. */
function levelAdvice(
  files: readonly FileRecord[],
  { loudness: asked, peak: most }: Pick<BatchFormat, "loudness" | "peak">,
): readonly Problem[] {
  const advice: Problem[] = [];
  const missing = files.flatMap(({ loudness }) => (loudness === null ? [] : [asked - loudness]));
  const quieter = missing.filter((by) => by > LOUDNESS_TOLERANCE);
  if (quieter.length > 0) {
    const by = Math.max(...quieter);
    const message = sayProblem("node-problem.sound-quieter-than-asked", {
      count: quieter.length,
      by,
      asked: `${asked}`,
    });
    const loudness = `${Math.floor(asked - by)}`;
    const remedy = sayProblem("node-problem.sound-quieter-than-asked-remedy", { loudness });
    advice.push(problem("SOUND_QUIETER_THAN_ASKED", message, {}, remedy));
  }
  const high = files.flatMap(({ peak }) => (peak !== null && peak > most + PEAK_TOLERANCE ? [peak] : []));
  if (high.length > 0) {
    const said = { count: high.length, peak: Math.max(...high), most: `${most}` };
    const message = sayProblem("node-problem.sound-peaks-too-high", said);
    advice.push(problem("SOUND_PEAKS_TOO_HIGH", message, {}, sayProblem("node-problem.sound-peaks-too-high-remedy")));
  }
  return advice;
}

async function makeFiles(
  jobs: SoundJobs,
  options: Omit<BatchOptions, "bank"> & {
    format: BatchFormat;
    threads: number;
    bank: BankBytes | undefined;
    draws: boolean;
  },
): Promise<Result<readonly FileMade[]>> {
  const { folder, format, words, makers, bank, threads, draws, onProgress, signal } = options;
  const record = join(folder, options.record ?? RECORD);
  const earlier = await readRecord(record);
  const atOnce = Math.min(threads, Math.max(1, jobs.count));
  const pool = new Tinypool({
    // Beside this file once it is compiled.
    filename: new URL("./worker.js", import.meta.url).href,
    minThreads: atOnce,
    maxThreads: atOnce,
    workerData: { bank: bank?.bytes },
  });
  let done = 0;
  let kept = 0;
  const task = async (index: number): Promise<Result<FileMade>> => {
    const job = jobs.at(index);
    const task: FileTask = {
      job,
      format,
      label: labelOf(job.score, words, makers),
      folder,
      earlier: earlier.get(`${job.file}.${format.as}`),
      bank: bank?.sum,
      recordings: pathsOf(job.score, options.recordings),
      cover: draws ? stripChart(job.score, words === undefined ? {} : { words }) : undefined,
    };
    try {
      const result: Result<FileMade> = await pool.run(task);
      if (!result.ok) return result;
      // At once, so that an interruption costs no more than the files in hand.
      if (!result.value.kept) await appendFile(record, recordText([result.value.entry]));
      done += 1;
      kept += result.value.kept ? 1 : 0;
      onProgress?.({ done, total: jobs.count, kept, file: result.value.entry.file });
      return result;
    } catch (error) {
      return failure(isSystemError(error) ? writeProblem(record, error) : failed(error));
    }
  };
  const end = (): Promise<void> => endPool(pool);
  const stopped = (): Problem =>
    problem(
      "RENDERING_STOPPED",
      sayProblem("node-problem.rendering-stopped", { done: String(done), count: String(jobs.count) }),
      { file: folder },
      sayProblem("node-problem.rendering-stopped-remedy"),
    );
  const made = await runConcurrently({ count: jobs.count, atOnce, task, end, signal, stopped });
  await end();
  return made;
}

function pathsOf({ parts }: Score, find: BatchOptions["recordings"]): Readonly<Record<string, string>> {
  const files = new Set(parts.flatMap(({ recorded = [] }) => recorded.map(({ file }) => file)));
  return Object.fromEntries(
    [...files].flatMap((file) => {
      const path = find?.(file);
      return path === undefined ? [] : [[file, path]];
    }),
  );
}

/** The record in the order of the names; files of other drills and formats in the same folder keep their lines. */
async function writeRecord(path: string, files: readonly FileRecord[]): Promise<Result<boolean>> {
  const all = new Map([...(await readRecord(path)), ...files.map((entry) => [entry.file, entry] as const)]);
  const inOrder = [...all.values()].sort((a, b) => (a.file < b.file ? -1 : 1));
  return writeIfOther(path, new TextEncoder().encode(recordText(inOrder)));
}

function foldersOf(jobs: SoundJobs, folder: string): readonly string[] {
  const folders = new Set([folder]);
  for (let i = 0; i < jobs.count; i++) folders.add(dirname(join(folder, ...jobs.fileAt(i).split("/"))));
  return [...folders];
}

function distinct(advice: readonly Problem[]): readonly Problem[] {
  return [...new Map(advice.map((each) => [each.message, each])).values()];
}

function failed(error: unknown): Problem {
  return problem("RENDERING_FAILED", sayProblem("node-problem.rendering-failed", { error: textOf(error) }));
}

function isSystemError(error: unknown): boolean {
  return error instanceof Error && "syscall" in error;
}
