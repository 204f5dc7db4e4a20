export { openSoundFile, type SoundFile } from "./openSoundFile.js";
