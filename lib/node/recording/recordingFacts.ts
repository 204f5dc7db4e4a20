import { createHash } from "node:crypto";
import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { HEAD, soundFacts } from "../../formats/sound/index.js";
import type { RecordingFacts } from "../../pattern/index.js";

/** Bytes read at a time. */
const PORTION = 1_048_576;

/**
 * What is known of a sound file without listening to it, for `readRecording` of `readCurriculum`: the checksum of its bytes, its format, and its length where its head states it. The file is read once,
 * a megabyte at a time; `undefined` when it cannot be read.
 *
 * @example
 * recordingFacts("missing.wav") // undefined
 */
export function recordingFacts(path: string): RecordingFacts | undefined {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(path, "r");
    const { size } = fstatSync(descriptor);
    const sum = createHash("sha256");
    const piece = new Uint8Array(PORTION);
    let head = new Uint8Array(0);
    for (let count = readSync(descriptor, piece); count > 0; count = readSync(descriptor, piece)) {
      if (head.length === 0) head = piece.slice(0, Math.min(count, HEAD));
      sum.update(piece.subarray(0, count));
    }
    return { sha256: sum.digest("hex"), ...soundFacts(head, size) };
  } catch {
    return undefined;
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}
