export type { Label, Rate } from "../../formats/sound/index.js";
export {
  type Bits,
  encodeFlac,
  encodeWav,
  type FlacOptions,
  quantised,
  type WavOptions,
} from "../../formats/sound/index.js";
export { readSoundBank } from "./bank.js";
export { CAUTION, labelOf } from "./caution.js";
export { soundCodes } from "./codes.js";
export { type SoundJob, type SoundJobs, soundJobs } from "./jobs.js";
export { USUAL_LOUDNESS, USUAL_PEAK } from "./level.js";
export { integratedLoudness } from "./loudness.js";
export type { Sound, SoundBank, SoundOptions } from "./model.js";
export { renderSound } from "./renderSound.js";
export { truePeak } from "./truePeak.js";
