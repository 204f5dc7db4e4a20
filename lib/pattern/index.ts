export { chordTransposed } from "./chordSymbol.js";
export { parseChords } from "./chords.js";
export { patternCodes } from "./codes.js";
export { compilePattern, type PatternContext } from "./compile.js";
export { instrumentNamed, unknownInstrument } from "./compilePart.js";
export type {
  InstrumentDocument,
  MeterChangeDocument,
  MusicDocument,
  PartDocument,
  PatternDocument,
} from "./document.js";
export { compileFrame, type Frame, type FrameDocument } from "./frame.js";
export { parseGrid } from "./grid.js";
export { compileInstrument } from "./instrument.js";
export { INSTRUMENTS } from "./instruments.js";
export { opposite, parseInterval } from "./interval.js";
export { intervalBetween, keySignature, keyText, parseKey, spelledIn } from "./key.js";
export type { Bar, ChordSymbol, Instrument, Interval, Key, Note, Part, Pattern, Pitch, Scale } from "./model.js";
export { parseNotes } from "./notes.js";
export { USUAL_TUPLETS } from "./noteWords.js";
export { frequency, midiNumber, parsePitch, pitchText, transposePitch } from "./pitch.js";
export { pitchClasses, SCALES, scaleOf, scaleText } from "./scale.js";
export { transposePattern } from "./transpose.js";
export { PERCUSSION, voiceOn } from "./voices.js";
export { type RangeQuestion, rangeProblems, soundingPitch, writtenPitch } from "./written.js";
