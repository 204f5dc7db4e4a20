/** The door of rendered sound: a score played by an app's own bank of sounds. */
export type { Rate } from "../formats/index.js";
export {
  integratedLoudness,
  type PartVoices,
  readSoundBank,
  renderSound,
  type Sound,
  type SoundBank,
  type SoundJob,
  type SoundJobs,
  type SoundOptions,
  scoreVoices,
  soundCodes,
  soundJobs,
  truePeak,
  USUAL_LOUDNESS,
  USUAL_PEAK,
  type VoicedNote,
} from "../render/sound/index.js";
