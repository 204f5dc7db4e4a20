import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** An annotated recording. */
export interface DrumRecording {
  readonly file: string;
  readonly rate: number;
  readonly samples: Float32Array;
  /** Seconds. */
  readonly truth: readonly number[];
}

const FOLDER = "../shared/reference/drum-audio";
/** Drums that are struck together are one onset: annotated within 30 ms of each other (the published combination time of detectors). */
const TOGETHER = 0.03;

/** Six drum recordings with annotated hits (MDB Drums, read in place), or nothing when they are not there. */
export function drumRecordings(): readonly DrumRecording[] | undefined {
  if (!existsSync(FOLDER)) return undefined;
  return [1, 2, 3, 4, 5, 6].map((number) => {
    const file = join(FOLDER, `drums-${number}.wav`);
    const times = readFileSync(join(FOLDER, `drums-${number}.class.txt`), "utf8")
      .split("\n")
      .filter((line) => line.trim() !== "")
      .map((line) => Number(line.trim().split(/\s/)[0]))
      .sort((a, b) => a - b);
    const truth: number[] = [];
    for (const time of times) if (time - (truth.at(-1) ?? -1) > TOGETHER) truth.push(time);
    return { file, truth, ...monoWav(readFileSync(file)) };
  });
}

/** The samples of a WAV file of one channel of 16 bits. */
function monoWav(bytes: Buffer): { rate: number; samples: Float32Array } {
  let rate = 0;
  for (let at = 12; at < bytes.length; ) {
    const name = bytes.toString("ascii", at, at + 4);
    const size = bytes.readUInt32LE(at + 4);
    if (name === "fmt ") rate = bytes.readUInt32LE(at + 12);
    if (name === "data") {
      const samples = Float32Array.from({ length: size / 2 }, (_, i) => bytes.readInt16LE(at + 8 + 2 * i) / 32768);
      return { rate, samples };
    }
    at += 8 + size + (size % 2);
  }
  throw new Error("a WAV file has samples");
}
