import { problemsOf } from "../../base/index.js";
import type { ByteReader } from "./byteReader.js";
import { recordingCodes } from "./codes.js";
import { LONGEST } from "./limits.js";
import type { Report } from "./recording.js";
import type { SoundStream } from "./soundStream.js";
import { lengthOf } from "./trim.js";

const problem = problemsOf(recordingCodes);

/**
 * Guards a stream against the effects of a broken file: decoders that throw, sound without end, blocks of another shape, no blocks. The source
 * of bytes is closed at the end, also when the consumer stops early. Problems: RECORDING_DECODER_FAILED, RECORDING_READ_FAILED,
 * RECORDING_TOO_LONG, RECORDING_WITHOUT_SOUND.
 */
export async function* guarded(sound: SoundStream, reader: ByteReader, report: Report): SoundStream {
  let count = 0;
  let shape: string | undefined;
  let isWhole = true;
  try {
    for await (const block of sound) {
      if (lengthOf(block) === 0) continue;
      const found = `${block.channels.length} channels at ${block.rate} Hz`;
      shape ??= found;
      if (found !== shape) {
        const message = `it begins with ${shape} and goes on with ${found}`;
        report(problem("RECORDING_DECODER_FAILED", message, {}, "record it in one piece"));
        isWhole = false;
        break;
      }
      count += lengthOf(block);
      if (count > LONGEST * block.rate) {
        const message = `a recording is listened to for ${LONGEST / 3600} hours at most, and this one is longer`;
        report(problem("RECORDING_TOO_LONG", message, {}, "cut it into takes"));
        isWhole = false;
        break;
      }
      yield block;
    }
  } catch {
    // Errors of decoders are about their internals, so they are not shown.
    report(
      problem("RECORDING_DECODER_FAILED", "its decoder gave up: the file is broken", {}, "record or send it again"),
    );
    isWhole = false;
  } finally {
    await reader.close();
  }
  const fault = reader.fault();
  if (fault !== undefined) report(problem("RECORDING_READ_FAILED", `reading it broke off${reasonOf(fault)}`));
  else if (count === 0 && isWhole) report(problem("RECORDING_WITHOUT_SOUND", "it holds no sound, not even silence"));
}

/** The system's code of an error, such as EIO. */
function reasonOf(fault: unknown): string {
  const code = fault !== null && typeof fault === "object" && "code" in fault ? String(fault.code) : "";
  return /^[A-Z_0-9]+$/.test(code) ? ` (${code})` : "";
}
