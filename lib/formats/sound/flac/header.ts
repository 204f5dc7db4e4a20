import { failure, type Result, resultOf } from "../../../base/index.js";
import type { ByteReader } from "../byteReader.js";
import { brokenHeader, shapeProblems } from "../limits.js";
import { say } from "../say.js";

/** The header of a FLAC file, up to its first frame. */
export interface FlacHeader {
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
  /** Most samples in a block. */
  readonly block: number;
  /** Samples of each channel in the file; `undefined` when not stated. */
  readonly total: number | undefined;
  /** The letters fLaC and the stream information, marked as the last metadata block: all that a decoder needs before the frames. */
  readonly bytes: Uint8Array;
}

const INFORMATION = 34;
const LAST = 0x80;
/** Most metadata blocks read; our choice, far more than any editor writes. */
const MOST_BLOCKS = 1000;

/** Reads the header up to the first frame (RFC 9639, section 8). Problem: RECORDING_HEADER_BROKEN. */
export async function readFlacHeader(reader: ByteReader): Promise<Result<FlacHeader>> {
  await reader.fill(8 + INFORMATION);
  const bytes = reader.take(8 + INFORMATION).slice();
  const isWhole = bytes.length === 8 + INFORMATION && (bytes[4]! & 0x7f) === 0 && uint24(bytes, 5) === INFORMATION;
  if (!isWhole) return failure(brokenHeader(say("recording-problem.header-broken-stream-information")));
  let isLast = (bytes[4]! & LAST) !== 0;
  for (let count = 0; !isLast && count < MOST_BLOCKS && (await reader.fill(4)) >= 4; count++) {
    const head = reader.take(4);
    isLast = (head[0]! & LAST) !== 0;
    await reader.skip(uint24(head, 1));
  }
  bytes[4] = LAST;
  const view = new DataView(bytes.buffer, 8);
  const packed = view.getUint32(10);
  const total = (packed & 0xf) * 2 ** 32 + view.getUint32(14);
  const rate = packed >>> 12;
  const header: FlacHeader = {
    channels: ((packed >>> 9) & 7) + 1,
    rate,
    bits: ((packed >>> 4) & 31) + 1,
    block: view.getUint16(2),
    total: total === 0 ? undefined : total,
    bytes,
  };
  return resultOf(header, shapeProblems(header.channels, rate));
}

function uint24(bytes: Uint8Array, at: number): number {
  return (bytes[at]! << 16) | (bytes[at + 1]! << 8) | bytes[at + 2]!;
}
