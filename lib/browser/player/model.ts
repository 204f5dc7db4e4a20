import type { Result } from "../../base/index.js";
import type { Rate, ReadyRecording } from "../../recording/index.js";
import type { Score } from "../../schema/index.js";
import type { SoundClock } from "../clock/model.js";
import type { Damage } from "../damage.js";

export interface PlayerOptions {
  /** A context of the app's own; one is made, and closed with the player, when left out. */
  readonly context?: AudioContext;
  /** Where the sound goes: the loudspeaker or headphones of the context when left out. */
  readonly output?: AudioNode;
  /** Loudness, 0 (silent) to 1 (as loud as the voices are); 1 when left out. */
  readonly volume?: number;
}

/**
 * Plays the mixes of one rung with the built-in voices, and with the teacher's recordings where there are some.
 *
 * It starts no sound by itself: show the cautions (`cautionsIn` of `leeway/words`) before the first `play`, and call that from a press of a key, a
 * click or a touch, as browsers keep sound back otherwise. The tempo is the rung's and cannot be changed here.
 */
export interface ScorePlayer {
  readonly context: AudioContext;
  readonly clock: SoundClock;
  /** Samples a second of its sounds, and so of recordings that it is given. */
  readonly rate: Rate;
  /**
   * Gets the sounds of a rung ready, in pieces that leave the page free. `scores` are the mixes of one rung, as `scoreOf` gives them; `switchMix`
   * chooses among them. A part that was recorded sounds by its recordings when all of them are given (`makeReady` of `leeway/recording`, at the player's `rate`), and else by its notes. Stops what
   * was playing. Rejects with `RangeError` for no score, for two of one mix, for scores of different rungs, and for recordings of two rates.
   */
  load(scores: readonly Score[], options?: { readonly recordings?: readonly ReadyRecording[] }): Promise<void>;
  /** The recordings that were loaded. */
  readonly recordings: readonly ReadyRecording[];
  /**
   * Plays from `from` on, or from where it was paused; from the count-in when it was stopped. Resolves when it is certain when that sounds. Problem:
   * SOUND_NOT_ALLOWED when the browser keeps sound back. Rejects with `TypeError` before `load`, with `RangeError` for a mix that was not loaded.
   */
  play(options?: PlayOptions): Promise<Result<Started>>;
  /** Silence at once, within 10 ms; the place is kept. */
  pause(): void;
  /** Silence at once; the next `play` begins with the count-in. */
  stop(): void;
  /** Goes to a place, seconds from bar 1 of the score (negative: in the count-in), playing on when it plays. */
  seek(at: number): void;
  /** Repeats these phrases, counted from 1, both included, from their end on; `undefined`: no longer. Each time round begins without a count-in. Throws `RangeError` for phrases the score does not have. */
  repeat(phrases: { readonly from: number; readonly to: number } | undefined): void;
  /** Changes to another mix without losing the place: what is off fades within 10 ms. Throws `RangeError` for a mix that was not loaded. */
  switchMix(mix: string): void;
  /** Sets the loudness, 0 to 1. */
  setVolume(volume: number): void;
  /** What is heard at this moment of `performance.now()`; now when left out. */
  heard(moment?: number): Heard;
  /** When a place of the score last sounded, or will sound next as things stand: seconds of the context. `undefined` when it does not sound. */
  whenSounds(at: number): number | undefined;
  /** What went wrong since the last `play`, in order. */
  readonly damage: readonly Damage[];
  /** Tells of everything that happens; gives a function that ends the telling. */
  onEvent(listener: (event: PlayerEvent) => void): () => void;
  /** Stops, and closes the context if it was made here. */
  close(): Promise<void>;
}

export interface PlayOptions {
  /** Seconds from bar 1 of the score. */
  readonly from?: number;
  /** Whether the count-in is heard first, whatever comes after it; as a rule it is, unless the player was paused. */
  readonly lead?: "count-in" | "none";
  /** The mix to play; the one that was chosen last, or the first loaded, when left out. */
  readonly mix?: string;
  /** The second of the context at which it begins, for instance one that was agreed with a recorder; as soon as it is safe when left out or past. */
  readonly at?: number;
}

/** From when on what is played sounds. */
export interface Started {
  /** Seconds of the context. */
  readonly at: number;
  /** The place in the score that sounds then, seconds from bar 1. */
  readonly from: number;
}

/** What a person hears at a moment. */
export interface Heard {
  readonly state: "stopped" | "paused" | "counting in" | "playing";
  /** Seconds from bar 1 of the score; negative in the count-in. Where it begins next when nothing plays. */
  readonly at: number;
  /** Number of the bar, from 1; 0 before bar 1. */
  readonly bar: number;
  /** Number of the phrase, from 1; the outro is one more; 0 before bar 1. */
  readonly phrase: number;
  /** Index of the dropout of the score that holds this place, whether or not the mix drops there; `undefined` outside. */
  readonly dropout: number | undefined;
}

export type PlayerEvent =
  | { readonly kind: "started"; readonly started: Started }
  | { readonly kind: "paused" | "stopped" }
  /** The last sound of the score has been heard; the place is again before the count-in. */
  | { readonly kind: "ended" }
  | { readonly kind: "mix"; readonly mix: string }
  /** Something was late, stood still or is other than it was. When it `stops`, the player has paused. */
  | { readonly kind: "damaged"; readonly damage: Damage };
