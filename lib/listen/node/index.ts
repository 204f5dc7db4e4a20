export { openSoundFile, type SoundFile, type SoundFileOptions } from "./openSoundFile.js";
