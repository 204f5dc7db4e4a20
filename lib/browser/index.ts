/// <reference lib="dom" />

export type { OutputLatency, SoundClock } from "./clock/model.js";
export { outputAdvice } from "./clock/outputAdvice.js";
export { type BrowserProblem, browserCodes } from "./codes.js";
export type { Damage } from "./damage.js";
export { captureAddress } from "./input/captureAddress.js";
export { listenToTaps } from "./input/listenToTaps.js";
export type {
  Input,
  InputKind,
  InputNote,
  InputState,
  Microphone,
  MicrophoneOptions,
  MidiDevices,
  MidiInput,
  MidiInputOptions,
  TapOptions,
  TimedBlock,
} from "./input/model.js";
export { openMicrophone } from "./input/openMicrophone.js";
export { openMidiInput } from "./input/openMidiInput.js";
export { askToKeep, keepingNow } from "./keeping/keeping.js";
export type { Keeping } from "./keeping/model.js";
export { type LatencyBook, type LatencyStorage, latencyBook } from "./latency/latencyBook.js";
export { measureLoop, measureTapping } from "./latency/measureLatency.js";
export type { DeviceLatency, LatencyMeasured, LatencyOptions, LatencyProgress } from "./latency/model.js";
export type { Heard, PlayerEvent, PlayerOptions, PlayOptions, ScorePlayer, Started } from "./player/model.js";
export { openPlayer } from "./player/openPlayer.js";
export { recordingsHere } from "./player/recordingsHere.js";
export { beginTake } from "./take/beginTake.js";
export type { TakeHeard, TakeInHand, TakeOptions, TakeSound } from "./take/model.js";
