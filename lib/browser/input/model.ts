import type { Problem } from "../../base/index.js";
import type { Damage } from "../damage.js";

/** A note as it came in. */
export interface InputNote {
  /** Seconds of the context: which sound was heard when the note was played, or, of a microphone, arrived. Latency that was measured is not taken off. */
  readonly at: number;
  /** MIDI number, fractions included; left out when unknown. */
  readonly pitch?: number;
  /** 1 to 127; left out when unknown. */
  readonly velocity?: number;
}

/** The kinds of input. */
export type InputKind = "microphone" | "taps" | "midi";

/** What an input is doing. */
export type InputState =
  | { readonly state: "opening" }
  | { readonly state: "listening"; readonly device: string }
  /** Nothing comes in for now, and it will be taken up again by itself: no device is plugged in, or the tab is in the background. */
  | { readonly state: "waiting"; readonly problem: Problem }
  | { readonly state: "closed" };

/** Notes that come in: from a microphone, from keys and touches, from MIDI. */
export interface Input {
  readonly kind: InputKind;
  readonly state: InputState;
  /** What calibration is kept under: kind and name of the device. Changes when another device is plugged in. */
  readonly device: string;
  /** Tells of each note, in order of time; gives a function that ends the telling. */
  onNote(listener: (note: InputNote) => void): () => void;
  onState(listener: (state: InputState) => void): () => void;
  /** Tells of lost sound, of a change of device, of a tab in the background. */
  onDamage(listener: (damage: Damage) => void): () => void;
  close(): void;
}

export interface TapOptions {
  /** Where taps are taken: the document when left out. A touch or click counts when it begins in it; a key counts wherever the focus is. */
  readonly target?: EventTarget;
  /** Keys that are no taps, by `KeyboardEvent.key`; Escape and Tab when left out. Keys held with Ctrl, Alt or Meta, and repeats of a held key, never are. */
  readonly except?: readonly string[];
}

export interface MidiInputOptions {
  /** Only the device of this name; all devices when left out. */
  readonly device?: string;
  /** Only this channel, 1 to 16; all when left out. */
  readonly channel?: number;
}

/** The names of MIDI devices that are plugged in. */
export type MidiDevices = readonly string[];

export interface MidiInput extends Input {
  readonly devices: MidiDevices;
}

export interface MicrophoneOptions {
  /** Id of the device, as `navigator.mediaDevices.enumerateDevices` gives it; the usual one when left out. */
  readonly deviceId?: string;
  /**
   * Address of the worklet: the file `leeway/browser/capture.js` as your server serves it, which a strict content security policy allows, or
   * `captureAddress()`, which needs no file. The file beside the library when left out.
   */
  readonly worklet?: string | URL;
}

/** A block of sound with its time. */
export interface TimedBlock {
  /** Frame of the context at which it begins; divided by the rate, its second. */
  readonly frame: number;
  readonly rate: number;
  readonly samples: Float32Array;
  /** Frames at its start that never arrived and are filled with silence. */
  readonly filled: number;
}

/**
 * A microphone with echo cancellation, noise suppression and gain control off. It is an input of blocks; `beginTake` listens to them. Sound stays in
 * memory, and is let go when the take is.
 */
export interface Microphone extends Omit<Input, "onNote"> {
  readonly kind: "microphone";
  readonly rate: number;
  onBlock(listener: (block: TimedBlock) => void): () => void;
  /** Whether the browser says that it changes the sound in spite of the request: then the timing of notes is worse. */
  readonly altered: boolean;
}
