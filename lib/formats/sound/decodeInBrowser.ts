import { failure, success } from "../../base/index.js";
import type { Problem, Result } from "../problem.js";
import { byteReader } from "./byteReader.js";
import { problem } from "./codes.js";
import type { DecodingOptions } from "./decodeSound.js";
import { isNamedWrongly, SNIFFED, soundFormatOf } from "./format/index.js";
import { guarded } from "./guardedStream.js";
import { skipTags } from "./id3.js";
import { inspected } from "./inspect.js";
import { startUnstated } from "./mp3/decodeMp3.js";
import { frameAt, LONGEST_FRAME } from "./mp3/frameHeader.js";
import { DECODER_DELAY, infoIn, USUAL_DELAY } from "./mp3/infoTag.js";
import type { Recording, Report } from "./recording.js";
import { say } from "./say.js";
import type { SoundStream } from "./soundStream.js";
import { trimmed } from "./trim.js";

/** The used part of a browser's `AudioContext` or `OfflineAudioContext`. */
export interface SoundContext {
  readonly decodeAudioData: (bytes: ArrayBuffer) => Promise<DecodedBuffer>;
}

/** The used part of a browser's `AudioBuffer`. */
export interface DecodedBuffer {
  readonly sampleRate: number;
  readonly length: number;
  readonly numberOfChannels: number;
  readonly getChannelData: (channel: number) => Float32Array;
}

/** Samples in a block; our choice. */
const PORTION = 65_536;

/**
 * Opens a sound file with the browser's decoder: every format that the browser plays, M4A, Opus and WebM included. Unlike `decodeSound` it
 * holds the whole sound, at the sample rate of the context: 23 MB for a minute of stereo at 48 kHz.
 *
 * Problems: RECORDING_EMPTY, RECORDING_DECODER_FAILED, and those of its samples, as with `decodeSound`. `bytes` are not changed.
 *
 * @example
 * const opened = await decodeInBrowser(new Uint8Array(await file.arrayBuffer()), new AudioContext(), { name: file.name });
 */
export async function decodeInBrowser(
  bytes: Uint8Array,
  context: SoundContext,
  { name = "" }: DecodingOptions = {},
): Promise<Result<Recording>> {
  if (bytes.length === 0) return failure(problem("RECORDING_EMPTY", say("recording-problem.empty")));
  const reader = byteReader(bytes);
  const problems: Problem[] = [];
  const report: Report = (found) => void problems.push(found);
  await skipTags(reader);
  const format = soundFormatOf(reader.peek(SNIFFED));
  if (format === undefined)
    return failure(problem("RECORDING_FORMAT_UNKNOWN", say("recording-problem.format-unknown")));
  if (isNamedWrongly(name, format))
    report(problem("RECORDING_NAMED_WRONGLY", say("recording-problem.named-wrongly", { name, format })));
  let buffer: DecodedBuffer;
  try {
    // The decoder detaches its buffer, so it gets a copy.
    buffer = await context.decodeAudioData(bytes.slice().buffer);
  } catch {
    const message = say("recording-problem.decoder-failed-in-browser", { format });
    const remedy = say("recording-problem.decoder-failed-in-browser-remedy");
    return failure(problem("RECORDING_DECODER_FAILED", message, {}, remedy));
  }
  const before = format === "MP3" ? unstatedStart(reader.peek(LONGEST_FRAME), report) * buffer.sampleRate : 0;
  const sound = trimmed(blocksOf(buffer), { before: Math.round(before), behind: 0 });
  const heard = inspected(guarded(sound, reader, report), report);
  return success({ format, sound: heard, problems: () => [...problems] }, [...problems]);
}

/** Seconds to remove from the start of an MP3 file that does not state the silence before its sound: browsers keep them. */
function unstatedStart(bytes: Uint8Array, report: Report): number {
  const frame = frameAt(bytes);
  if (frame === undefined || infoIn(bytes, frame)?.added !== undefined) return 0;
  report(startUnstated(frame));
  return (USUAL_DELAY + DECODER_DELAY) / frame.rate;
}

async function* blocksOf(buffer: DecodedBuffer): SoundStream {
  const channels = Array.from({ length: buffer.numberOfChannels }, (_, channel) => buffer.getChannelData(channel));
  for (let at = 0; at < buffer.length; at += PORTION)
    yield { rate: buffer.sampleRate, channels: channels.map((samples) => samples.subarray(at, at + PORTION)) };
}
