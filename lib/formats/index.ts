export { formatCodes } from "./codes.js";
export {
  type MidiDivision,
  type MidiFile,
  type MidiKey,
  type MidiMaps,
  type MidiMeter,
  type MidiNote,
  type MidiTempo,
  type MidiTrack,
  readMidiFile,
} from "./midi/index.js";
export {
  type MusicXmlBar,
  type MusicXmlFile,
  type MusicXmlNote,
  type MusicXmlPart,
  type MusicXmlRemark,
  readMusicXml,
  type StaffPitch,
} from "./musicxml/index.js";
