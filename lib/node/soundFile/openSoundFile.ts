import { open, stat } from "node:fs/promises";
import { basename } from "node:path";
import { failure, type Problem, problemsOf, type Result, success, type Worded } from "../../base/index.js";
import {
  byteReader,
  decodeSound,
  recordingCodes,
  SNIFFED,
  type SoundFormat,
  type SoundStream,
  skipTags,
  soundFormatOf,
} from "../../formats/sound/index.js";
import { codeOf } from "../fileProblem.js";
import { sayProblem } from "../say.js";
import { ffmpegSound, PATIENCE, probeFfmpeg, stuck } from "./ffmpegSound.js";

const problem = problemsOf(recordingCodes);

/** Seconds; timers cannot wait much longer than 24 days. */
const DAY = 86_400;

/** A sound file on this machine. */
export interface SoundFile {
  readonly format: SoundFormat;
  /** Its sound from the beginning, read and decoded as it is gone through; can be called as often as wanted. */
  readonly open: () => SoundStream;
  /** What was found, each once; complete when a sound has been gone through. An error among them means that what was heard must not be used. */
  readonly problems: () => readonly Problem[];
}

export interface SoundFileOptions {
  /** Seconds after which ffmpeg is taken for stuck when it gives nothing, and is stopped: 60 when left out. What is spent on the sound elsewhere does not count. */
  readonly patience?: number;
}

/**
 * Opens a sound file: as `decodeSound` does, and what that cannot decode (M4A, AAC, Opus, WebM, AIFF, CAF, AMR) with the program `ffmpeg`, when it is
 * installed. Nothing of the sound is kept anywhere.
 *
 * Problems: as `decodeSound`, RECORDING_READ_FAILED, RECORDING_DECODER_MISSING without ffmpeg, and RECORDING_DECODER_STUCK when it stands still.
 * Throws `RangeError` when `patience` is not above 0 and below a day.
 *
 * @example
 * const file = await openSoundFile("take.m4a");
 * if (file.ok) for await (const block of file.value.open()) listen(block);
 */
export async function openSoundFile(
  path: string,
  { patience = PATIENCE }: SoundFileOptions = {},
): Promise<Result<SoundFile>> {
  if (!(patience > 0 && patience < DAY))
    throw new RangeError(`patience must be above 0 and below ${DAY} s, got ${patience}`);
  const unreadable = await reasonAgainst(path);
  if (unreadable !== undefined) return failure(inFile(problem("RECORDING_READ_FAILED", unreadable), path));
  const found = new Map<string, Problem>();
  const report = (problems: readonly Problem[]): void => {
    for (const each of problems) if (!found.has(each.code)) found.set(each.code, inFile(each, path));
  };
  const problems = (): readonly Problem[] => [...found.values()];
  const probe = await decodeSound(fileBytes(path), { name: basename(path) });
  if (probe.ok) {
    report(probe.advice);
    const open = () => decodedSound(path, report);
    return success({ format: probe.value.format, open, problems }, problems());
  }
  report(probe.problems);
  const format = await formatOfFile(path);
  // An encoder puts silence before the sound of an MP3. Our own decoding takes it off; whether ffmpeg takes the same off was not measured.
  if (format === undefined || format === "MP3" || !found.has("RECORDING_DECODER_MISSING"))
    return { ok: false, problems: problems() };
  found.clear();
  const ffmpeg = await probeFfmpeg(patience);
  if (ffmpeg === "missing") return failure(inFile(withoutFfmpeg(format), path));
  if (ffmpeg === "stuck") return failure(inFile(stuck(format, patience), path));
  return success({ format, open: () => ffmpegSound(path, { format, patience }, report), problems });
}

async function* decodedSound(path: string, report: (problems: readonly Problem[]) => void): SoundStream {
  const opened = await decodeSound(fileBytes(path), { name: basename(path) });
  if (!opened.ok) return report(opened.problems);
  try {
    yield* opened.value.sound;
  } finally {
    report(opened.value.problems());
  }
}

async function reasonAgainst(path: string): Promise<Worded | undefined> {
  try {
    return (await stat(path)).isFile() ? undefined : sayProblem("node-problem.recording-no-file");
  } catch (error) {
    const code = codeOf(error) ?? ({ key: "node-problem.unknown-reason", parameters: {} } as const);
    return sayProblem("node-problem.recording-read-failed", { error: code });
  }
}

function withoutFfmpeg(format: SoundFormat): Problem {
  const message = sayProblem("node-problem.recording-decoder-missing", { format });
  const remedy = sayProblem("node-problem.recording-decoder-missing-remedy");
  return problem("RECORDING_DECODER_MISSING", message, {}, remedy);
}

function inFile(found: Problem, file: string): Problem {
  return { ...found, where: { ...found.where, file } };
}

/** The kind of sound file by the beginning of its content, after its tags. */
async function formatOfFile(path: string): Promise<SoundFormat | undefined> {
  const reader = byteReader(fileBytes(path));
  await skipTags(reader);
  await reader.fill(SNIFFED);
  return soundFormatOf(reader.peek(SNIFFED));
}

/** Bytes read at a time. */
const PORTION = 262_144;

/**
 * The bytes of a regular file in pieces. The file is opened for each anew, so that nothing stays open when the rest is not wanted.
 * Throws the system's error.
 */
async function* fileBytes(path: string): AsyncGenerator<Uint8Array> {
  for (let at = 0; ; ) {
    const piece = await pieceAt(path, at);
    if (piece.length === 0) return;
    yield piece;
    at += piece.length;
  }
}

async function pieceAt(path: string, at: number): Promise<Uint8Array> {
  const file = await open(path, "r");
  try {
    const piece = new Uint8Array(PORTION);
    const { bytesRead } = await file.read(piece, 0, PORTION, at);
    return piece.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}
