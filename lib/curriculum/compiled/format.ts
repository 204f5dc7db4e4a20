import type { Drill } from "../../drill/index.js";
import type { Instrument } from "../../pattern/index.js";
import type { Curriculum } from "../model.js";
import { crc32 } from "./crc32.js";

/** Version of the format; a number for each change that an older reader would misread. */
export const COMPILED_VERSION = 1;

/** A drill that names its pattern and numbers its players' instruments, so that each is written once. */
export interface CompactDrill extends Omit<Drill, "pattern" | "players"> {
  readonly pattern: string;
  readonly players: readonly { readonly instrument: number; readonly octave: number }[];
}

/** A course without repetitions. */
export interface CompactCourse extends Omit<Curriculum, "drills"> {
  readonly drills: readonly CompactDrill[];
  /** Instruments of players, which drills number from 0. */
  readonly played: readonly Instrument[];
}

/** The checksum of a compiled course: CRC-32 of the course as JSON without blanks, in UTF-8; eight hexadecimal digits. */
export function checksumOf(course: unknown): string {
  return crc32(new TextEncoder().encode(JSON.stringify(course)))
    .toString(16)
    .padStart(8, "0");
}
