import { failure, type Problem, type Result, resultOf, type Worded } from "../../../base/index.js";
import type { ByteReader } from "../byteReader.js";
import { problem } from "../codes.js";
import { brokenHeader, shapeProblems } from "../limits.js";
import { say } from "../say.js";

/** Sample format of a WAV file. */
export interface WavFormat {
  readonly coding: "whole" | "float";
  readonly channels: number;
  readonly rate: number;
  /** Bytes of one sample. */
  readonly width: number;
}

/** The header of a WAV file, up to its first sample. */
export interface WavHeader extends WavFormat {
  /** Bytes of samples; `undefined` when not stated. */
  readonly size: number | undefined;
}

const WHOLE = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
/** Placeholder size: the real size is in `ds64` (RF64), or unknown because the file was written to a pipe. */
const UNSTATED = 0xffffffff;
/** Most chunks read before the samples; our choice, far more than any editor writes. */
const MOST_CHUNKS = 1000;
/** Bytes of a format. The largest is our choice. */
const FORMAT_SIZE = { least: 16, most: 4096 } as const;

/**
 * Reads the header up to the first sample. Problems: RECORDING_HEADER_BROKEN, RECORDING_DECODER_MISSING for samples that are compressed.
 *
 * Layout: RIFF WAVE with `WAVE_FORMAT_EXTENSIBLE`; RF64 and BW64 with `ds64` (EBU Tech 3306, ITU-R BS.2088).
 */
export async function readWavHeader(reader: ByteReader): Promise<Result<WavHeader>> {
  if (text(reader.take(12), 0) === "RIFX")
    return failure(compressed(say("recording-problem.decoder-not-ours-big-endian")));
  let format: Result<WavFormat> | undefined;
  let long: number | undefined;
  for (let count = 0; count < MOST_CHUNKS && (await reader.fill(8)) >= 8; count++) {
    const head = reader.take(8);
    const name = text(head, 0);
    const size = view(head).getUint32(4, true);
    if (name === "data") {
      if (format === undefined) return failure(brokenHeader(say("recording-problem.header-broken-order")));
      if (!format.ok) return format;
      const stated = size === UNSTATED ? long : size;
      return resultOf({ ...format.value, size: stated }, []);
    }
    if (name === "fmt ") {
      if (size < FORMAT_SIZE.least || size > FORMAT_SIZE.most || (await reader.fill(size)) < size)
        return failure(
          brokenHeader(say("recording-problem.header-broken-format-size", { ...FORMAT_SIZE, found: size })),
        );
      format = formatIn(reader.peek(size));
    }
    if (name === "ds64" && (await reader.fill(24)) >= 24 && size >= 24)
      long = Number(view(reader.peek(24)).getBigUint64(8, true));
    await reader.skip(size + (size % 2));
  }
  return failure(brokenHeader(say("recording-problem.header-broken-no-samples")));
}

function formatIn(bytes: Uint8Array): Result<WavFormat> {
  const fields = view(bytes);
  const stated = fields.getUint16(0, true);
  // In the extensible format the first two bytes of the sub-format identifier are the format code.
  const code = stated === EXTENSIBLE && bytes.length >= 40 ? fields.getUint16(24, true) : stated;
  if (code !== WHOLE && code !== FLOAT)
    return failure(compressed(say("recording-problem.decoder-not-ours-code", { code: `0x${code.toString(16)}` })));
  const [channels, rate] = [fields.getUint16(2, true), fields.getUint32(4, true)];
  const [frame, bits] = [fields.getUint16(12, true), fields.getUint16(14, true)];
  const problems: Problem[] = [...shapeProblems(channels, rate)];
  const width = Math.ceil(bits / 8);
  const widths = code === FLOAT ? [4, 8] : [1, 2, 3, 4];
  if (!widths.includes(width)) problems.push(brokenHeader(say("recording-problem.header-broken-bits", { bits })));
  else if (frame !== width * channels)
    problems.push(
      brokenHeader(
        say("recording-problem.header-broken-frame", { channels, bits, bytes: width * channels, found: frame }),
      ),
    );
  return resultOf({ coding: code === FLOAT ? "float" : "whole", channels, rate, width }, problems);
}

function compressed(message: Worded): Problem {
  return problem("RECORDING_DECODER_MISSING", message);
}

function view(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function text(bytes: Uint8Array, from: number): string {
  return String.fromCharCode(...bytes.subarray(from, from + 4));
}
