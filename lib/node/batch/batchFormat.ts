import { USUAL_LOUDNESS, USUAL_PEAK } from "../../render/sound/index.js";
import type { BatchFormat } from "./model.js";

/** A format with what was left out: 24-bit WAV at 44.1 kHz, -23 LUFS, -1 dBTP, no dither. Throws `RangeError` for what does not go together. */
export function batchFormat(asked: Partial<BatchFormat>): BatchFormat {
  const { as = "wav", rate = 44100, samples = 24, loudness = USUAL_LOUDNESS, peak = USUAL_PEAK, dither = null } = asked;
  if (as !== "wav" && as !== "flac") throw new RangeError(`as is wav or flac, got ${String(as)}`);
  if (samples !== 16 && samples !== 24 && samples !== "float")
    throw new RangeError(`samples is 16, 24 or float, got ${String(samples)}`);
  if (as === "flac" && samples === "float")
    throw new RangeError("FLAC holds whole numbers: samples is 16 or 24, got float");
  return { as, rate, samples, loudness, peak, dither };
}
