export type {
  InstrumentDocument,
  MeterChangeDocument,
  PartDocument,
  PatternDocument,
  VariantDocument,
} from "../schema/index.js";
export { chordTransposed } from "./chordSymbol.js";
export { parseChords } from "./chords.js";
export { chordPitchClasses } from "./chordTones.js";
export { patternCodes } from "./codes.js";
export { compileFrame, type Frame, type FrameDocument } from "./compile/bars.js";
export { compilePattern, type PatternContext, readPattern } from "./compile/pattern.js";
export { barLineOf, type FindRecording, secondsPerWhole } from "./compile/recording.js";
export { parseGrid, unknownVoice } from "./drumGrid.js";
export { formerNotes } from "./former/notes.js";
export { keepsBars, type LineKind, rewriteLine } from "./former/rewrite.js";
export { isHeardOnly } from "./heardOnly.js";
export { compileInstrument } from "./instruments/compileInstrument.js";
export { INSTRUMENTS, KNOWN_INSTRUMENTS, type KnownInstrument } from "./instruments/known.js";
export { instrumentNamed, knownInstrumentNamed, unknownInstrument } from "./instruments/named.js";
export { intervalText, parseInterval, rewriteInterval } from "./interval.js";
export { isMinor, keySignature, parseKey, parseKeyPlace, spelledIn } from "./key.js";
export {
  type KeyPlace,
  keyPlaceText,
  keyText,
  pitchClasses,
  readKey,
  readKeyPlace,
  scaleText,
} from "./keyText.js";
export { marksOf } from "./marks.js";
export type {
  Bar,
  ChordSymbol,
  Instrument,
  Interval,
  Key,
  Loudness,
  Note,
  Part,
  Pattern,
  Pitch,
  RecordedTake,
  RecordingFacts,
  Scale,
} from "./model.js";
export { parseNotes } from "./note/line.js";
export { parseOwnScale } from "./ownScale.js";
export { KNOWN_VOICES, LEVEL_ONE_KEYS, PERCUSSION, voiceOn } from "./percussion.js";
export {
  frequency,
  midiNumber,
  octavesBeyond,
  opposite,
  parsePitch,
  pitchClassOf,
  pitchText,
  transposePitch,
} from "./pitch.js";
export type { PatternCode } from "./problem.js";
export {
  type Compass,
  compassOf,
  nearestOctave,
  type Octaves,
  octavesWithin,
  type RangeQuestion,
  rangeProblems,
} from "./range.js";
export { KNOWN_SCALES, SCALES, scaleOf } from "./scale.js";
export { intervalBetween, soundingPitch, transposePattern, writtenPitch } from "./transposition.js";
export { centsAboveUsual, parseTuning } from "./tuning.js";
export { USUAL_TUPLETS } from "./usualTuplets.js";
