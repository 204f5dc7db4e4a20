export { recordingCodes } from "./codes.js";
export { type DecodedBuffer, decodeInBrowser, type SoundContext } from "./decodeInBrowser.js";
export { type DecodingOptions, decodeSound } from "./decodeSound.js";
export { isSoundName, SNIFFED, type SoundFormat, soundFormatOf } from "./format.js";
export type { Recording } from "./recording.js";
