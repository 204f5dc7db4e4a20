import type FlacLibrary from "libflacjs/dist/libflac.js";
import type { ByteReader } from "../byteReader.js";
import type { FlacHeader } from "./header.js";

/** A decoded frame: the number of its first sample in the file, and its samples by channel. */
export interface FlacFrame {
  readonly start: number;
  readonly channels: readonly Float32Array[];
}

interface FrameHead {
  readonly blocksize: number;
  readonly number: number;
  readonly numberType: string;
  readonly bitsPerSample: number;
  readonly channels: number;
  readonly sampleRate: number;
}

/** Bytes that the decoder may read ahead: twice the size of its own buffer, to be safe. */
const READ_AHEAD = 131_072;
/** Decoder state at the end of the stream. Higher states are failures, after which no frame follows. */
const ENDED = 4;

/**
 * Decodes the frames of a FLAC file that have a correct checksum, in file order. The decoder cannot wait for bytes, so it is called only when the
 * bytes of a whole frame are there.
 */
export async function* decodeFrames(
  reader: ByteReader,
  header: FlacHeader,
  Flac: typeof FlacLibrary,
): AsyncGenerator<FlacFrame> {
  // In a browser the decoder becomes ready some time after it is loaded.
  if (!Flac.isReady()) await new Promise<void>((resolve) => Flac.on("ready", () => resolve()));
  const decoder: number = Flac.create_libflac_decoder(false);
  const frames: FlacFrame[] = [];
  let start = header.bytes;
  const read = (size: number) => {
    const buffer = new Uint8Array(start.length > 0 ? start.subarray(0, size) : reader.take(size));
    start = start.subarray(buffer.length);
    return { buffer, readDataLength: buffer.length, error: false };
  };
  const write = (data: readonly Uint8Array[], head: FrameHead): void => {
    const isOfFile =
      head.channels === header.channels && head.bitsPerSample === header.bits && head.sampleRate === header.rate;
    if (isOfFile) frames.push({ start: startOf(head, header), channels: data.map((bytes) => samplesOf(bytes, head)) });
  };
  try {
    // The decoder skips frames that it cannot read; the frame numbers show the gap.
    if (Flac.init_decoder_stream(decoder, read, write, () => undefined) !== 0) return;
    const most = READ_AHEAD + Math.ceil((header.block * header.channels * (header.bits + 1)) / 8);
    for (;;) {
      await reader.fill(most);
      const goesOn: boolean = Flac.FLAC__stream_decoder_process_single(decoder);
      yield* frames.splice(0);
      if (!goesOn || Flac.FLAC__stream_decoder_get_state(decoder) >= ENDED) return;
    }
  } finally {
    Flac.FLAC__stream_decoder_delete(decoder);
  }
}

function startOf({ number, numberType }: FrameHead, { block }: FlacHeader): number {
  return numberType === "frames" ? number * block : number >>> 0;
}

/** Reads little-endian whole numbers. The decoder may use more bytes for a sample than its width needs. */
function samplesOf(bytes: Uint8Array, { blocksize, bitsPerSample }: FrameHead): Float32Array {
  const width = bytes.length / blocksize;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const samples = new Float32Array(blocksize);
  const scale = 2 ** (bitsPerSample - 1);
  if (bitsPerSample === 24)
    for (let i = 0, at = 0; i < blocksize; i++, at += width)
      samples[i] = (view.getInt8(at + 2) * 65_536 + view.getUint16(at, true)) / scale;
  else for (let i = 0, at = 0; i < blocksize; i++, at += width) samples[i] = view.getInt16(at, true) / scale;
  return samples;
}
