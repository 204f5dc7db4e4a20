import { basename } from "node:path";
import { failureIn, type Problem, type Result, success } from "../../base/index.js";
import { readMidiTake } from "../../listen/index.js";
import { checkTake, type Take } from "../../schema/index.js";
import { adviceOf, currentTake } from "../../take/index.js";
import { fingerprint } from "../fingerprint.js";
import { textOf } from "../input/inputFile.js";
import { linesOf, onLine, parseJson } from "../input/jsonLines.js";
import { STANDARD_INPUT } from "../input/placeName.js";
import type { Terminal } from "../terminal.js";
import type { HearingContext, HearingOptions } from "./heardTake.js";
import { latencyOf } from "./latency.js";
import { takeSource } from "./takeSource.js";

export interface TakeOptions extends HearingOptions {
  readonly zero?: "count-in" | "bar-1";
  /** MIDI: only this track, counted from 1. */
  readonly track?: number;
  /** MIDI: only this channel, counted from 1. */
  readonly channel?: number;
}

/** One take with all advice about it, or its problems. Its name for people is the file, and the line in a file of many takes. */
export interface NamedTake {
  readonly name: string;
  readonly take: Result<Take>;
}

/** The take with its advice, which goes on together with it. */
export function withAdvice(take: Take, advice: readonly Problem[]): Take {
  const told = advice.filter(({ severity }) => severity === "advice").map(adviceOf);
  const all = [...(take.advice ?? []), ...told];
  return all.length === 0 ? take : { ...take, advice: all };
}

/** Reads the takes in a file or, for `-`, in standard input: a recording, a Standard MIDI File, one JSON document, or JSON Lines. */
export async function readTakes(
  argument: string,
  options: TakeOptions,
  { terminal, ...context }: HearingContext & { readonly terminal: Terminal },
): Promise<readonly NamedTake[]> {
  const name = argument === "-" ? STANDARD_INPUT : argument;
  const source = await takeSource(argument, terminal);
  if (!source.ok) return [{ name, take: source }];
  if (source.value.kind === "sound") {
    // A given time 0 is measured from the start of the recording.
    const { zero, start = zero === undefined ? undefined : 0 } = options;
    // What listens is loaded for recordings only.
    const { hearTake } = await import("./heardTake.js");
    const heard = await hearTake(
      source.value.sound,
      { ...options, ...(start === undefined ? {} : { start }) },
      context,
    );
    if (!heard.ok) return [{ name, take: heard }];
    return [{ name, take: success(withAdvice({ ...heard.value.take, ...(zero && { zero }) }, heard.advice)) }];
  }
  const { bytes } = source.value;
  if (isMidi(bytes)) return [{ name, take: finished(inFile(midiTake(bytes, options), name), options) }];
  const text = textOf(bytes, name);
  if (!text.ok) return [{ name, take: text }];
  const takes = isLines(text.value, argument) ? fromLines(text.value, name) : [fromJson(text.value, name)];
  return takes.map((each) => ({ name: each.name, take: finished(each.take, options) }));
}

/** Whether it is a MIDI file: it begins with MThd, or with RIFF when it is wrapped. */
function isMidi(bytes: Uint8Array): boolean {
  const start = String.fromCharCode(...bytes.subarray(0, 4));
  return start === "MThd" || start === "RIFF";
}

function midiTake(bytes: Uint8Array, { track, channel }: TakeOptions): Result<Take> {
  return readMidiTake(bytes, {
    ...(track === undefined ? {} : { track }),
    ...(channel === undefined ? {} : { channel }),
  });
}

/** Whether a text is JSON Lines: by its name, or when its first line is a whole JSON value and more lines follow. */
function isLines(text: string, argument: string): boolean {
  if (/\.(?:jsonl|ndjson)$/i.test(argument)) return true;
  if (/\.json$/i.test(argument)) return false;
  const lines = linesOf(text);
  return lines.length > 1 && parseJson(lines[0]!.text).ok;
}

function fromLines(text: string, file: string): readonly NamedTake[] {
  return linesOf(text).map((each) => {
    const { take } = fromJson(each.text, file);
    const problems = take.ok ? [] : take.problems.map((problem) => onLine(problem, file, each.line));
    return { name: `${file}:${each.line}`, take: take.ok ? take : { ok: false, problems } };
  });
}

function fromJson(text: string, file: string): NamedTake {
  const value = parseJson(text);
  if (!value.ok) return { name: file, take: inFile<Take>(value, file) };
  // A JSON list is a list of onsets.
  const take = checkTake(Array.isArray(value.value) ? { onsets: value.value } : currentTake(value.value));
  return { name: file, take: inFile(take, file) };
}

function inFile<T>(result: Result<T>, file: string): Result<T> {
  return result.ok ? result : failureIn(file, result.problems);
}

/** Applies the options for takes that are no recordings. */
function finished(take: Result<Take>, { zero, ...options }: TakeOptions): Result<Take> {
  if (!take.ok) return take;
  const latency = latencyOf(options);
  if (!latency.ok) return latency;
  return success(withAdvice({ ...take.value, ...(zero && { zero }), ...latency.value }, take.advice));
}

/**
 * The name of a take without one: the file's name and a fingerprint of its onsets. The same take read again has the same name, and so counts
 * once; another take in a file of the same name has another.
 */
export function takeName(file: string, take: Take): string {
  const { onsets, zero, latencyMs } = take;
  return `${file === "standard input" ? "take" : basename(file.replace(/:\d+$/, ""))}#${fingerprint([onsets, zero, latencyMs])}`;
}
