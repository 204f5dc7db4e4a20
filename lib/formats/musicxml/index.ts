export type {
  MusicXmlBar,
  MusicXmlFile,
  MusicXmlNote,
  MusicXmlPart,
  MusicXmlRemark,
  StaffPitch,
} from "./musicXmlFile.js";
export { readMusicXml } from "./readMusicXml.js";
export { element, emptyElement, textElement, type Xml } from "./writeXml.js";
