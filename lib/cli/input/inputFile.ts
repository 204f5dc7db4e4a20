import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem, UNKNOWN_REASON } from "../say.js";
import { STANDARD_INPUT } from "./placeName.js";

const problem = problemsOf(fileCodes);

/** Bytes read at a time. */
const CHUNK = 65536;

/** Reads a file (or pipe) of at most `limit` bytes, or returns the problem. */
export function readBytes(path: string, limit: number): Result<Uint8Array> {
  return readOpened(path, (descriptor) => {
    const bytes = readUpTo(descriptor, limit);
    return bytes === undefined ? failure(tooLarge(path, limit)) : success(bytes);
  });
}

/** Reads the first bytes of a file, at most `count`, or returns the problem. */
export function readHead(path: string, count: number): Result<Uint8Array> {
  return readOpened(path, (descriptor) => {
    const head = new Uint8Array(count);
    return success(head.subarray(0, readChunk(descriptor, head)));
  });
}

function readOpened(path: string, read: (descriptor: number) => Result<Uint8Array>): Result<Uint8Array> {
  let descriptor: number;
  try {
    descriptor = openSync(path, "r");
  } catch (error) {
    return failure(unopened(path, error));
  }
  try {
    if (fstatSync(descriptor).isDirectory()) return failure(unopened(path, { code: "EISDIR" }));
    return read(descriptor);
  } catch (error) {
    return failure(unopened(path, error));
  } finally {
    closeSync(descriptor);
  }
}

/** Reads a file of UTF-8 text, or returns the problem. */
export function readText(path: string, limit: number): Result<string> {
  const bytes = readBytes(path, limit);
  return bytes.ok ? textOf(bytes.value, path) : bytes;
}

/** The standard input of a command. */
export interface StandardInput {
  /** Reads standard input to its end; `undefined` when it is longer than `limit` bytes. */
  readonly readInput: (limit: number) => Uint8Array | undefined;
}

/** Reads the bytes of an argument: of a file, or of standard input for `-`. */
export function argumentBytes(argument: string, { readInput }: StandardInput, limit: number): Result<Uint8Array> {
  if (argument !== "-") return readBytes(argument, limit);
  const bytes = readInput(limit);
  return bytes === undefined ? failure(tooLarge(STANDARD_INPUT, limit)) : success(bytes);
}

/** Reads the UTF-8 text of an argument: of a file, or of standard input for `-`. */
export function readArgument(argument: string, input: StandardInput, limit: number): Result<string> {
  const bytes = argumentBytes(argument, input, limit);
  return bytes.ok ? textOf(bytes.value, argument === "-" ? STANDARD_INPUT : argument) : bytes;
}

/** Decodes UTF-8; a byte order mark is removed. */
export function textOf(bytes: Uint8Array, file: string): Result<string> {
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    if (!text.includes("\0")) return success(text);
  } catch {
    // Not UTF-8: reported below, together with other binary content.
  }
  return failure(problem("INPUT_NOT_TEXT", sayProblem("cli-problem.input-not-text"), { file }));
}

/** Reads standard input to its end; `undefined` when it is longer than `limit` bytes. */
export function readStdin(limit: number): Uint8Array | undefined {
  return readUpTo(0, limit);
}

/** A file is larger than `limit` bytes. */
export function tooLarge(file: string, limit: number): Problem {
  const message = sayProblem("cli-problem.input-too-large", { most: String(limit / 1e6) });
  return problem("INPUT_TOO_LARGE", message, { file });
}

function readUpTo(descriptor: number, limit: number): Uint8Array | undefined {
  const chunks: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const chunk = new Uint8Array(CHUNK);
    const count = readChunk(descriptor, chunk);
    if (count === 0) break;
    length += count;
    if (length > limit) return undefined;
    chunks.push(chunk.subarray(0, count));
  }
  return new Uint8Array(Buffer.concat(chunks, length));
}

/** Milliseconds between attempts to read an input that has no data yet; our choice, too short to notice. */
const PATIENCE = 10;

function readChunk(descriptor: number, chunk: Uint8Array): number {
  for (;;) {
    try {
      return readSync(descriptor, chunk);
    } catch (error) {
      const code = codeOf(error);
      if (code === "EOF") return 0;
      // A non-blocking input without data yet fails with EAGAIN.
      if (code !== "EAGAIN") throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PATIENCE);
    }
  }
}

function unopened(file: string, error: unknown): Problem {
  const code = codeOf(error);
  if (code === "ENOENT" || code === "ENOTDIR")
    return problem("INPUT_NOT_FOUND", sayProblem("cli-problem.input-not-found"), { file });
  if (code === "EISDIR") return problem("INPUT_IS_FOLDER", sayProblem("cli-problem.input-is-folder"), { file });
  const reason = code ?? (error instanceof Error ? error.message : UNKNOWN_REASON);
  return problem("INPUT_UNREADABLE", sayProblem("cli-problem.input-unreadable", { error: reason }), { file });
}

function codeOf(error: unknown): string | undefined {
  return error !== null && typeof error === "object" && "code" in error ? String(error.code) : undefined;
}
