import { ifInstalled } from "../../../base/index.js";
import { type Bits, quantised } from "../pcm.js";
import type { Label, StereoSound } from "../stereoSound.js";

/** Options of a FLAC file. */
export interface FlacOptions {
  /** 16 or 24 bits; 24 when left out. */
  readonly samples?: Bits;
  /** Seed of the dither; none is added without. */
  readonly dither?: number | string | undefined;
  readonly label?: Label;
}

/** Stream information that the encoder returns at the end. */
interface StreamInfo {
  readonly min_framesize: number;
  readonly max_framesize: number;
  readonly md5sum: string;
}

/** Default compression level of FLAC. */
const COMPRESSION = 5;
/** Samples passed to the encoder at a time. */
const PORTION = 65536;
const STREAM_INFO_SIZE = 34;
const LAST_BLOCK = 0x80;
const COMMENT_BLOCK = 4;

/**
 * Encodes a sound as a FLAC file (RFC 9639). The compression is lossless: every sample is kept exactly.
 *
 * The encoder cannot go back in a stream. So this function writes the frame sizes and the MD5 sum of the samples into the header, and its own
 * comment block. The encoder is the optional package `libflacjs` (1 MB), loaded at the first call. Rejects with an `Error` that says so when it is not
 * installed.
 *
 * @example
 * soundFormatOf(await encodeFlac({ rate: 48000, channels: [new Float32Array(4800), new Float32Array(4800)] })) // "FLAC"
 */
export async function encodeFlac(
  sound: StereoSound,
  { samples = 24, dither, label }: FlacOptions = {},
): Promise<Uint8Array> {
  const numbers = quantised(sound.channels, { bits: samples, dither });
  const length = sound.channels[0].length;
  const library = await ifInstalled(() => import("libflacjs/dist/libflac.js"));
  if (library === undefined)
    throw new Error("FLAC files are written by the package libflacjs, which is not installed: npm install libflacjs");
  const Flac = library.default;
  // In a browser the encoder becomes ready some time after it is loaded.
  if (!Flac.isReady()) await new Promise<void>((resolve) => Flac.on("ready", () => resolve()));
  const pieces: Uint8Array[] = [];
  const told: StreamInfo[] = [];
  const encoder = Flac.create_libflac_encoder(sound.rate, 2, samples, COMPRESSION, length, false, 0);
  try {
    const opened = Flac.init_encoder_stream(
      encoder,
      (piece: Uint8Array) => void pieces.push(piece.slice()),
      (info: StreamInfo | undefined) => void (info === undefined || told.push(info)),
    );
    let fine = opened === 0;
    for (let from = 0; fine && from < length; from += PORTION) {
      const count = Math.min(PORTION, length - from);
      const portion = numbers.subarray(2 * from, 2 * (from + count));
      fine = Flac.FLAC__stream_encoder_process_interleaved(encoder, portion, count);
    }
    if (!fine || !Flac.FLAC__stream_encoder_finish(encoder)) throw new Error("the FLAC encoder refused the samples");
  } finally {
    Flac.FLAC__stream_encoder_delete(encoder);
  }
  return withHeader(pieces, told[0]!, label);
}

/** The pieces from the encoder are the letters fLaC, the stream information, its own comment (replaced here), and the frames. */
function withHeader(pieces: readonly Uint8Array[], told: StreamInfo, label: Label | undefined): Uint8Array {
  const [letters, information, , ...frames] = pieces;
  const header = information!.slice(0, 4 + STREAM_INFO_SIZE);
  const view = new DataView(header.buffer);
  putUint24(view, 8, told.min_framesize);
  putUint24(view, 11, told.max_framesize);
  for (let i = 0; i < 16; i++) view.setUint8(22 + i, Number.parseInt(told.md5sum.slice(2 * i, 2 * i + 2), 16));
  const comments = commentBlock(label);
  const size = letters!.length + header.length + comments.length + frames.reduce((sum, frame) => sum + frame.length, 0);
  const file = new Uint8Array(size);
  let at = 0;
  for (const piece of [letters!, header, comments, ...frames]) {
    file.set(piece, at);
    at += piece.length;
  }
  return file;
}

/** Vorbis comments: their lengths are little-endian; all other numbers of FLAC are big-endian. */
function commentBlock(label: Label | undefined): Uint8Array {
  const texts =
    label === undefined ? [] : [`TITLE=${label.title}`, `DESCRIPTION=${label.comment}`, `ENCODER=${label.software}`];
  const [maker, ...comments] = ["leeway", ...texts].map((text) => new TextEncoder().encode(text));
  const size = [maker!, ...comments].reduce((sum, text) => sum + 4 + text.length, 4);
  const view = new DataView(new ArrayBuffer(4 + size));
  const bytes = new Uint8Array(view.buffer);
  view.setUint8(0, LAST_BLOCK | COMMENT_BLOCK);
  putUint24(view, 1, size);
  let at = 4;
  const put = (text: Uint8Array): void => {
    view.setUint32(at, text.length, true);
    bytes.set(text, at + 4);
    at += 4 + text.length;
  };
  put(maker!);
  view.setUint32(at, comments.length, true);
  at += 4;
  comments.forEach(put);
  return bytes;
}

function putUint24(view: DataView, at: number, value: number): void {
  view.setUint8(at, value >>> 16);
  view.setUint16(at + 1, value & 0xffff);
}
