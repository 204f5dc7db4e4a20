import type { Phrase, Worded } from "../../base/index.js";
import type { ByteReader } from "./byteReader.js";
import { problem } from "./codes.js";
import { LONGEST } from "./limits.js";
import type { Report } from "./recording.js";
import { say } from "./say.js";
import type { SoundStream } from "./soundStream.js";
import { lengthOf } from "./trim.js";

/**
 * Guards a stream against the effects of a broken file: decoders that throw, sound without end, blocks of another shape, no blocks. The source
 * of bytes is closed at the end, also when the consumer stops early. Problems: RECORDING_DECODER_FAILED, RECORDING_READ_FAILED,
 * RECORDING_TOO_LONG, RECORDING_WITHOUT_SOUND.
 */
export async function* guarded(sound: SoundStream, reader: ByteReader, report: Report): SoundStream {
  let count = 0;
  let first: Shape | undefined;
  let isWhole = true;
  try {
    for await (const block of sound) {
      if (lengthOf(block) === 0) continue;
      const shape: Shape = { channels: block.channels.length, rate: block.rate };
      first ??= shape;
      if (shape.channels !== first.channels || shape.rate !== first.rate) {
        const given = { first: shapeOf(first), then: shapeOf(shape) };
        const message = say("recording-problem.decoder-failed-shape-changes", given);
        const remedy = say("recording-problem.decoder-failed-shape-changes-remedy");
        report(problem("RECORDING_DECODER_FAILED", message, {}, remedy));
        isWhole = false;
        break;
      }
      count += lengthOf(block);
      if (count > LONGEST * block.rate) {
        const message = say("recording-problem.too-long", { hours: LONGEST / 3600 });
        report(problem("RECORDING_TOO_LONG", message, {}, say("recording-problem.too-long-remedy")));
        isWhole = false;
        break;
      }
      yield block;
    }
  } catch {
    // Errors of decoders are about their internals, so they are not shown.
    const message = say("recording-problem.decoder-failed");
    report(problem("RECORDING_DECODER_FAILED", message, {}, say("recording-problem.record-or-send-again")));
    isWhole = false;
  } finally {
    await reader.close();
  }
  const fault = reader.fault();
  if (fault !== undefined) report(problem("RECORDING_READ_FAILED", readFailed(fault)));
  else if (count === 0 && isWhole) report(problem("RECORDING_WITHOUT_SOUND", say("recording-problem.without-sound")));
}

interface Shape {
  readonly channels: number;
  /** Samples per second of each channel. */
  readonly rate: number;
}

function shapeOf(shape: Shape): Phrase {
  return say("recording-problem.shape", { ...shape }).message;
}

/** That reading broke off, with the system's code of the error, such as EIO, where there is one. */
function readFailed(fault: unknown): Worded {
  const code = fault !== null && typeof fault === "object" && "code" in fault ? String(fault.code) : "";
  return /^[A-Z_0-9]+$/.test(code)
    ? say("recording-problem.read-failed-because", { reason: code })
    : say("recording-problem.read-failed");
}
