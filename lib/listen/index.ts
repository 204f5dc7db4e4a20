export type { SoundBlock, SoundStream } from "../formats/sound/index.js";
export {
  type DecodedBuffer,
  type DecodingOptions,
  decodeInBrowser,
  decodeSound,
  isSoundName,
  type Recording,
  recordingCodes,
  type SoundContext,
  type SoundFormat,
  soundFormatOf,
} from "../formats/sound/index.js";
export {
  type BackingFound,
  type BackingNotFound,
  type BackingPlace,
  findBacking,
  type OpenSound,
} from "./backing/index.js";
export { calibrationSound } from "./calibrationSound.js";
export { listenCodes } from "./codes.js";
export { ASSUMED_FAMILY, INSTRUMENT_FAMILIES, type InstrumentFamily } from "./families.js";
export { familyOfInstrument, familyOfPart } from "./familyOfInstrument.js";
export { CALIBRATION_CLICKS, type CalibrationWay, type Latency, latencyFrom } from "./latency.js";
export { type LiveTake, type LiveTakeOptions, liveTake } from "./liveTake.js";
export type { MidiTakeOptions } from "./midiTake.js";
export { readMidiTake } from "./midiTake.js";
export { findOnsets } from "./onset/findOnsets.js";
export type { HeardOnset, HeardOnsets, ListeningOptions } from "./onset/heardOnset.js";
export { type Listener, listenFor } from "./onset/listenFor.js";
export { findPitches } from "./pitch/findPitches.js";
export type { ListenCode } from "./problem.js";
export { resampledTo } from "./signal/resample.js";
export { soundPeaks } from "./signal/soundPeaks.js";
export { type Masking, type SpectrumFrame, type SpectrumShape, spectrumShapeAt } from "./signal/spectrumShape.js";
export type { SoundTake } from "./soundTake.js";
export { type SoundTakeOptions, takeFromSound } from "./takeFromSound.js";
