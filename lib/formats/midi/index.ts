export { channelTuning, noteOff, noteOn, pitchBend, programChange } from "./channelMessages.js";
export { keySignature, marker, SLOWEST_TEMPO, setTempo, text, timeSignature, trackName } from "./metaEvents.js";
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
export type { TimedMessage, TrackMessages } from "./writeEvents.js";
export { writeMidi } from "./writeMidi.js";
