export type {
  MidiDivision,
  MidiFile,
  MidiKey,
  MidiMaps,
  MidiMeter,
  MidiNote,
  MidiTempo,
  MidiTrack,
} from "./midiFile.js";
export { readMidiFile } from "./readMidi.js";
export {
  keySignature,
  marker,
  noteOff,
  noteOn,
  programChange,
  SLOWEST_TEMPO,
  setTempo,
  type TimedMessage,
  timeSignature,
  trackName,
} from "./writeEvents.js";
export { fileBytes, type Track } from "./writeMidi.js";
