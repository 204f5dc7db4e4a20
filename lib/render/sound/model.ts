import type { Rate, StereoSound } from "../../formats/sound/index.js";
import type { ReadyRecording } from "../../recording/index.js";
import type { Problem } from "../problem.js";

/** Options of rendering a score as sound. */
export interface SoundOptions {
  /** Samples per second; 44100 when left out. */
  readonly rate?: Rate;
  /** Integrated loudness to bring the whole file to, in LUFS (ITU-R BS.1770-4); -23 when left out. From -40 to -10. Loud ones turn down the highest peaks. */
  readonly loudness?: number;
  /** Highest true peak in dBTP; -1 when left out. From -20 to -1. */
  readonly peak?: number;
  /** Recorded instruments, from `readSoundBank`; the built-in voices when left out. */
  readonly bank?: SoundBank;
  /** The recordings that the score plays, from `makeReady` of `leeway/recording`; needed where it plays some. */
  readonly recordings?: readonly ReadyRecording[];
  /** So many phrases from the first on, without count-in and outro, to be played round and round: what rings at the end sounds at the beginning. The whole take when left out. */
  readonly loop?: { readonly phrases: number };
}

/** A sound bank that has been read. */
export interface SoundBank {
  readonly kind: "sound bank";
  /** The name the bank gives itself. */
  readonly name: string;
  /** The bank as the synthesiser has it, and the synthesiser. */
  readonly content: unknown;
}

/** A rendered score. */
export interface Sound extends StereoSound {
  /** Number of the sample on which bar 1 begins; a time `t` of the score lies `round(t * rate)` samples further on. */
  readonly downbeat: number;
  /** Integrated loudness in LUFS; `undefined` when nothing sounds. */
  readonly loudness: number | undefined;
  /** True peak in dBTP; `undefined` when nothing sounds. */
  readonly peak: number | undefined;
  /** The gain applied to the mix, in dB, before its highest peaks were turned down. */
  readonly gain: number;
  /** Whether the mix is quieter than asked for because its peaks would have to be turned down too far. */
  readonly heldBack: boolean;
  /** Advice, for example about instruments that the bank lacks. */
  readonly advice: readonly Problem[];
}
