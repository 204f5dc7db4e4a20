/// <reference lib="dom" />
export type { OutputLatency, SoundClock } from "./clock/model.js";
export { type BrowserProblem, browserCodes } from "./codes.js";
export type { Damage } from "./damage.js";
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
  OpenMicrophone,
  TapOptions,
  TimedBlock,
} from "./input/model.js";
export { listenToTaps } from "./input/listenToTaps.js";
export type { AskToKeep, Keeping, KeepingNow } from "./keeping/model.js";
export type { DeviceLatency, LatencyMeasured, LatencyOptions, LatencyProgress } from "./latency/model.js";
export type { Heard, Player, PlayerEvent, PlayerOptions, PlayOptions, Started } from "./player/model.js";
export { openPlayer } from "./player/openPlayer.js";
export type { BeginTake, TakeHeard, TakeInHand, TakeOptions, TakeSound } from "./take/model.js";
