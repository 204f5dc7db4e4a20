export { listenCodes } from "./codes.js";
export type { MidiTakeOptions } from "./midiTake.js";
export { readMidiTake } from "./midiTake.js";
