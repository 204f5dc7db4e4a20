export type {
  MusicXmlAdvice,
  MusicXmlBar,
  MusicXmlFile,
  MusicXmlNote,
  MusicXmlPart,
  StaffPitch,
} from "./musicXmlFile.js";
export { readMusicXml } from "./readMusicXml.js";
export { element, emptyElement, textElement, type Xml } from "./writeXml.js";
