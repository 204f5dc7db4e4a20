export { interchangeCodes } from "./codes.js";
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
export type {
  MusicXmlBar,
  MusicXmlFile,
  MusicXmlNote,
  MusicXmlPart,
  MusicXmlRemark,
  StaffPitch,
} from "./musicXmlFile.js";
export { readMidiFile } from "./readMidi.js";
export { readMusicXml } from "./readMusicXml.js";
