import { failure, type Result, success } from "../../../base/index.js";
import type { ByteReader } from "../byteReader.js";
import { problem } from "../codes.js";
import type { Report } from "../recording.js";
import { say } from "../say.js";
import type { SoundStream } from "../soundStream.js";
import { oggPages } from "./pages.js";

/** The used part of a Vorbis decoder. */
interface Decoder {
  readonly ready: Promise<void>;
  readonly decode: (bytes: Uint8Array) => Promise<Decoded>;
  readonly flush: () => Promise<Decoded>;
  readonly free: () => void;
}

interface Decoded {
  readonly channelData: readonly Float32Array[];
  readonly samplesDecoded: number;
  readonly sampleRate: number;
}

/** Bytes decoded at a time. */
const PORTION = 65_536;
/** Samples by which decoders may differ at the start and end: the longest block of Vorbis I. */
const SLACK = 8192;

/**
 * Decodes an Ogg Vorbis file with the optional package `@wasm-audio-decoders/ogg-vorbis`; RECORDING_DECODER_MISSING without it. During
 * decoding: RECORDING_CUT_SHORT, and RECORDING_TIMES_LOST when pages in the middle are broken.
 */
export async function decodeVorbis(reader: ByteReader, report: Report): Promise<Result<SoundStream>> {
  const decoder = await vorbisDecoder();
  if (decoder !== undefined) return success(decoded(reader, decoder, report));
  const message = say("recording-problem.decoder-missing", { format: "Ogg Vorbis" });
  const command = "npm install @wasm-audio-decoders/ogg-vorbis";
  const remedy = say("recording-problem.decoder-missing-remedy", { command });
  return failure(problem("RECORDING_DECODER_MISSING", message, {}, remedy));
}

async function vorbisDecoder(): Promise<Decoder | undefined> {
  try {
    const { OggVorbisDecoder } = await import("@wasm-audio-decoders/ogg-vorbis");
    return new OggVorbisDecoder();
  } catch {
    return undefined;
  }
}

async function* decoded(reader: ByteReader, decoder: Decoder, report: Report): SoundStream {
  const pages = oggPages();
  let rate = 0;
  let count = 0;
  try {
    await decoder.ready;
    for (;;) {
      await reader.fill(PORTION);
      const bytes = reader.take(PORTION).slice();
      pages.look(bytes);
      const piece = bytes.length === 0 ? await decoder.flush() : await decoder.decode(bytes);
      count += piece.samplesDecoded;
      if (piece.samplesDecoded > 0) {
        rate = piece.sampleRate;
        yield { rate, channels: piece.channelData };
      }
      if (bytes.length === 0) break;
    }
  } finally {
    decoder.free();
  }
  const stated = pages.samples();
  if (stated !== undefined && rate > 0 && count < stated - SLACK) {
    const given = { stated: stated / rate, lost: (stated - count) / rate };
    const message = say("recording-problem.times-lost-undecoded", given);
    report(problem("RECORDING_TIMES_LOST", message, {}, say("recording-problem.send-again")));
  }
  if (!pages.isEnded() && count > 0)
    report(problem("RECORDING_CUT_SHORT", say("recording-problem.cut-short-at-end", { held: count / rate })));
}
