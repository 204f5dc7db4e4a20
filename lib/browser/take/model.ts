import type { Problem, Result } from "../../base/index.js";
import type { InstrumentFamily, Latency } from "../../listen/index.js";
import type { Finding, Score, Take } from "../../schema/index.js";
import type { AssessOptions, Following } from "../../take/index.js";
import type { Damage } from "../damage.js";
import type { Input, Microphone } from "../input/model.js";
import type { ScorePlayer } from "../player/model.js";

export interface TakeOptions {
  /** Plays the score; `beginTake` starts it. */
  readonly player: ScorePlayer;
  /** The score that is played and judged, of the mix the player plays. */
  readonly score: Score;
  readonly input: Input | Microphone;
  /** Whether the band is heard in headphones; otherwise it is taken out of the microphone's sound. */
  readonly headphones: boolean;
  /** How the instrument's notes begin; needed for a microphone (`familyOfPart`). */
  readonly family?: InstrumentFamily;
  /** What was measured of this input's device; the constant offset is estimated without it. */
  readonly latency?: Pick<Latency, "latencyMs" | "latencyStandardErrorMs">;
  /** Goes into the take: its name, student, day. */
  readonly id?: string;
  readonly student?: string;
  readonly played?: string;
  /** As for `assess`. */
  readonly assess?: AssessOptions;
  /**
   * Address of the worker that listens and judges: the file `leeway/browser/hearing.js` as your server serves it, or a `data:` address that holds
   * it. The file beside the library when left out. Where no worker begins, the page listens by itself.
   */
  readonly hearing?: string | URL;
  /** Second of the context at which the count-in begins, as in `PlayOptions`. */
  readonly at?: number;
}

/** A take that is being played. It ends by itself with the score. */
export interface TakeInHand {
  /** Seconds of the context at which bar 1 sounds. */
  readonly barOne: number;
  /** Where the student is, told after each note and some twenty times a second while none comes (a microphone: four times). A silence's finding comes at its landing, again two bars later, and the whole take still refines it. */
  onFollowing(listener: (following: Following) => void): () => void;
  /** Tells of damage as it happens. Damage that stops the take ends it. */
  onDamage(listener: (damage: Damage) => void): () => void;
  /** Breaks the take off: nothing of it is kept, and `heard` resolves with TAKE_BROKEN_OFF. */
  breakOff(): void;
  /**
   * What was heard, at most 300 ms after the score's end. Problems: TAKE_BROKEN_OFF, and those of damage that stops a take (CLOCK_STOPPED, DEVICE_CHANGED,
   * TAB_HIDDEN and others); such a take has not been played.
   */
  readonly heard: Promise<Result<TakeHeard>>;
}

/** A take, and what it shows. */
export interface TakeHeard {
  /** For `submit` of `leeway/practice`: with drill, rung, mix, draw, latency, and damage as advice. */
  readonly take: Take;
  readonly finding: Finding;
  readonly damage: readonly Damage[];
  /** What should be known of how it was heard, for instance that the band hid notes; part of the take's advice. */
  readonly advice: readonly Problem[];
  /** The microphone's sound, one channel, gaps filled; `undefined` for taps and MIDI. */
  readonly sound: TakeSound | undefined;
}

/** The sound of a take, in memory only. */
export interface TakeSound {
  readonly rate: number;
  readonly samples: Float32Array;
  /** Seconds of the sound at which bar 1 was heard by the player, latency taken off as far as known. */
  readonly barOne: number;
}
