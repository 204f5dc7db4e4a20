/** What format a sound is in, without any of the decoders. */
export { isNamedWrongly, isSoundName, SNIFFED, type SoundFormat, soundFormatOf } from "./soundFormat.js";
