import { failure, success } from "../../base/index.js";
import type { Problem, Result } from "../problem.js";
import { type ByteReader, byteReader } from "./byteReader.js";
import { problem } from "./codes.js";
import { decodeFlac } from "./flac/decodeFlac.js";
import { isNamedWrongly, SNIFFED, type SoundFormat, soundFormatOf } from "./format/index.js";
import { guarded } from "./guardedStream.js";
import { skipTags } from "./id3.js";
import { inspected } from "./inspect.js";
import { decodeMp3 } from "./mp3/decodeMp3.js";
import { decodeVorbis } from "./ogg/decodeVorbis.js";
import type { Recording, Report } from "./recording.js";
import { say } from "./say.js";
import type { SoundStream } from "./soundStream.js";
import { decodeWav } from "./wav/decodeWav.js";

export interface DecodingOptions {
  /** Name of the file; used only to report a misleading ending. */
  readonly name?: string;
}

type Opening = (reader: ByteReader, report: Report) => Promise<Result<SoundStream>>;

const OPENINGS: Readonly<Partial<Record<SoundFormat, Opening>>> = {
  WAV: decodeWav,
  FLAC: decodeFlac,
  MP3: decodeMp3,
  "Ogg Vorbis": decodeVorbis,
};

/**
 * Opens a sound file. Its content decides the format: WAV (also RF64 and extensible), FLAC, MP3, and Ogg Vorbis where its optional decoder is
 * installed. Bytes are read as the sound is consumed; a bounded amount of bytes and samples is held, for any length.
 *
 * Problems at opening: RECORDING_EMPTY, RECORDING_FORMAT_UNKNOWN, RECORDING_HEADER_BROKEN, RECORDING_DECODER_MISSING (M4A, AAC,
 * Opus, WebM and others: `leeway/node` decodes them with ffmpeg, `decodeInBrowser` with the browser's decoder). Later problems
 * are in `problems()` of the recording after its sound was consumed. The sound never throws, whatever the bytes or the decoder do.
 *
 * @example
 * const opened = await decodeSound(bytes, { name: "take.wav" });
 * if (opened.ok) for await (const { rate, channels } of opened.value.sound) listen(rate, channels);
 */
export async function decodeSound(
  bytes: Uint8Array | AsyncIterable<Uint8Array>,
  { name = "" }: DecodingOptions = {},
): Promise<Result<Recording>> {
  const reader = byteReader(bytes);
  const problems: Problem[] = [];
  const report: Report = (found) => void problems.push(found);
  const opened = await open(reader, name, report);
  if (opened.ok) {
    const { format, sound } = opened.value;
    const heard = inspected(guarded(sound, reader, report), report);
    return success({ format, sound: heard, problems: () => [...problems] }, [...problems]);
  }
  await reader.close();
  const fault = reader.fault();
  return fault === undefined
    ? opened
    : failure(problem("RECORDING_READ_FAILED", say("recording-problem.read-failed-at-start")));
}

async function open(
  reader: ByteReader,
  name: string,
  report: Report,
): Promise<Result<{ readonly format: SoundFormat; readonly sound: SoundStream }>> {
  if ((await reader.fill(SNIFFED)) === 0) return failure(problem("RECORDING_EMPTY", say("recording-problem.empty")));
  await skipTags(reader);
  await reader.fill(SNIFFED);
  // An MP3 file may begin with other bytes; decoders search for its first frame.
  const format = soundFormatOf(reader.peek(SNIFFED)) ?? (/\.mp3$/i.test(name) ? "MP3" : undefined);
  if (format === undefined)
    return failure(
      problem(
        "RECORDING_FORMAT_UNKNOWN",
        say("recording-problem.format-unknown"),
        {},
        say("recording-problem.format-unknown-remedy"),
      ),
    );
  if (isNamedWrongly(name, format))
    report(
      problem(
        "RECORDING_NAMED_WRONGLY",
        say("recording-problem.named-wrongly", { name: name.replace(/^.*[\\/]/, ""), format }),
      ),
    );
  const opening = OPENINGS[format];
  if (opening === undefined) return failure(decoderMissing(format));
  try {
    const sound = await opening(reader, report);
    return sound.ok ? success({ format, sound: sound.value }) : sound;
  } catch {
    return failure(problem("RECORDING_DECODER_FAILED", say("recording-problem.decoder-failed-at-start", { format })));
  }
}

function decoderMissing(format: SoundFormat): Problem {
  const message = say("recording-problem.decoder-not-ours", { format });
  return problem("RECORDING_DECODER_MISSING", message, {}, say("recording-problem.decoder-not-ours-remedy"));
}
