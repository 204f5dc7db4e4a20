/** The door of recordings: what of a teacher's sound a score plays, made ready for `renderSound`. */
export {
  makeReady,
  type ReadyRecording,
  type RecordedSound,
  type RecordingNeed,
  recordingsIn,
  type Stretcher,
  type Stretching,
} from "../recording/index.js";
