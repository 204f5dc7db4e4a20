import type { Bits } from "../../formats/sound/index.js";
import { type Rate, USUAL_LOUDNESS, USUAL_PEAK } from "../../render/sound/index.js";
import { ENCODED, type EncodedFormat, type Encoding, isEncoded } from "../encoding/formats.js";

/** The formats of sound files: whole samples, and those that ffmpeg compresses. */
export type Compression = "wav" | "flac" | Encoding;

/** How the files of a batch are made. */
export interface BatchFormat {
  readonly as: Compression;
  readonly rate: Rate;
  /** FLAC holds whole numbers only. */
  readonly samples: Bits | "float";
  /** LUFS. */
  readonly loudness: number;
  /** dBTP. */
  readonly peak: number;
  /** Seed of the dither of whole numbers; `null` for none. */
  readonly dither: number | string | null;
  /** So many phrases that follow on themselves; the whole take when left out. */
  readonly loop?: number | undefined;
}

/** What the record says of a finished file. */
export interface FileRecord {
  /** Path below the output folder, with slashes. */
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
  /** SHA-256 of all that it was made from. */
  readonly from: string;
  readonly drill: string;
  readonly rung: string;
  readonly mix: string;
  readonly rate: number;
  /** Samples in each channel. */
  readonly length: number;
  /** The sample on which bar 1 begins. */
  readonly downbeat: number;
  /** LUFS; `null` for silence. */
  readonly loudness: number | null;
  /** dBTP; `null` for silence. */
  readonly peak: number | null;
  /** Whether the highest true peak kept it quieter than asked for. */
  readonly heldBack: boolean;
  readonly caution: string;
}

/** How far a batch has come. */
export interface BatchProgress {
  /** Files finished, those of an earlier run included. */
  readonly done: number;
  readonly total: number;
  /** Of those, how many an earlier run had finished. */
  readonly kept: number;
  /** The file just finished, below the output folder. */
  readonly file: string;
}

/** What a batch made. */
export interface Batch {
  /** In the order of the jobs. */
  readonly files: readonly FileRecord[];
  readonly kept: number;
  /** Path of the record. */
  readonly record: string;
}

/** A format with what was left out: 24-bit WAV at 44.1 kHz, -23 LUFS, -1 dBTP, no dither. Throws `RangeError` for what does not go together. */
export function batchFormat(asked: Partial<BatchFormat>): BatchFormat {
  const { as = "wav" } = asked;
  const only = isEncoded(as) ? (ENCODED[as] as EncodedFormat).rate : undefined;
  const { rate = only ?? 44100, samples = 24, loudness = USUAL_LOUDNESS, peak = USUAL_PEAK, dither = null } = asked;
  if (as !== "wav" && as !== "flac" && !isEncoded(as))
    throw new RangeError(`as is wav, flac, ${Object.keys(ENCODED).join(" or ")}, got ${String(as)}`);
  if (only !== undefined && rate !== only) throw new RangeError(`the rate of ${as} is ${only}, got ${rate}`);
  if (samples !== 16 && samples !== 24 && samples !== "float")
    throw new RangeError(`samples is 16, 24 or float, got ${String(samples)}`);
  if (as === "flac" && samples === "float")
    throw new RangeError("FLAC holds whole numbers: samples is 16 or 24, got float");
  const loop = asked.loop === undefined ? {} : { loop: asked.loop };
  return { as, rate, samples, loudness, peak, dither, ...loop };
}
