export { midiOf, studentMidiOf } from "./midi.js";
