export type { Label, Rate } from "../../formats/sound/index.js";
export {
  type Bits,
  encodeFlac,
  encodeWav,
  type FlacOptions,
  quantised,
  type WavOptions,
} from "../../formats/sound/index.js";
export { caseless, webName } from "../webName.js";
export { soundCodes } from "./codes.js";
export { integratedLoudness } from "./level/loudness.js";
export { USUAL_LOUDNESS, USUAL_PEAK } from "./level/normalise.js";
export { truePeak } from "./level/truePeak.js";
export type { Sound, SoundBank, SoundOptions } from "./model.js";
export { type RecordedPiece, recordedPieces } from "./recordedPieces.js";
export { renderSound } from "./renderSound.js";
export { readSoundBank } from "./soundBank.js";
export { labelOf, type Makers, type SoundJob, type SoundJobs, type SoundWords, soundJobs } from "./soundJobs.js";
export { type PartVoices, scoreVoices, type VoicedNote } from "./voices/scoreVoices.js";
