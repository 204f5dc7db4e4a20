import type { Fraction, Milliseconds, Percent } from "../base/index.js";
import type { Instrument, Pattern, Scale } from "../pattern/index.js";
import type { Span } from "../time/index.js";

/** What a part does in a mix: it plays throughout, is silent in dropouts, or is never heard. */
export type Does = "plays" | "drops" | "off";
/**
 * Part name -> what the part does. A part of the accompaniment that is not named, or named "drops", drops when it is among the rung's
 * dropping parts and plays otherwise. The student's part is off when it is not named.
 */
export interface Mix {
  readonly name: string;
  readonly parts: Readonly<Record<string, Does>>;
}

/** The values of all parameters that a ladder can change. Values are canonical texts: equal settings are equal strings. */
export interface Settings {
  /**
   * Canonical text of the lengths of silence: "1/2 bar", "3 beats", or for silences that grow in a take "1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases".
   * Absent in drills without dropout.
   */
  readonly dropout?: string;
  /** Beats per minute of the drill's beat unit, shortest decimal text: "96", "92.5". */
  readonly tempo: string;
  /** How the tempo rises inside a take, from `tempo` on: "4 each 2 phrases" (beats per minute), or "none". Absent in drills without a rise. */
  readonly rise?: string;
  readonly variant?: string;
  /** "D dorian". */
  readonly key?: string;
  readonly mix?: string;
  /** Parts that drop, sorted, joined by "+": "bass+kit"; where more drop as the take goes on: "kit > bass+kit each 2 phrases". */
  readonly parts?: string;
  /** Open bars, ascending, joined by "+": "3+4"; "none" when empty. */
  readonly open?: string;
}
export type Parameter = keyof Settings;

/** One parameter that climbs. Long ladders are arithmetic progressions, and their values are computed and not listed. */
export interface Ladder {
  readonly parameter: Parameter;
  readonly count: number;
  /** A list of texts, an arithmetic progression, or a geometric progression of tempi. */
  readonly values:
    | { readonly kind: "list"; readonly texts: readonly string[] }
    /** `by` counts the unit of `from`. */
    | { readonly kind: "spans"; readonly from: Span; readonly by: Fraction }
    | { readonly kind: "tempi"; readonly from: Fraction; readonly by: Fraction }
    /** Rung k is `from * ratio^k`, rounded to whole beats per minute. */
    | { readonly kind: "tempi by ratio"; readonly from: Fraction; readonly ratio: Fraction };
  /** Where the ladder starts again when the next ladder climbs: "bottom", or this many steps below its top. */
  readonly restart: "bottom" | number;
}

export type DropoutPlace =
  | { readonly at: "end" }
  | { readonly at: "start" }
  /** The silence ends with each of these bars of the phrase, so that the accompaniment returns on a downbeat. */
  | { readonly at: "bars"; readonly bars: readonly number[] }
  /** The downbeat of landing is drawn for each phrase: a pure function of seed, phrase and settings. */
  | { readonly at: "random"; readonly seed: number };

export interface Tolerance {
  readonly drift?: { readonly percent: Percent } | { readonly ms: Milliseconds };
  readonly landing?: Milliseconds;
  readonly steadiness?: Milliseconds;
  /** Smallest share of the notes of each silence that must be played, 0 to 1. */
  readonly played?: Fraction;
}

export type Gate =
  | { readonly kind: "clean of last"; readonly clean: number; readonly of: number }
  | { readonly kind: "in a row"; readonly count: number }
  /** Wald's sequential test: probability of a clean take `able` (let on) against `unready` (held), with the two error rates. */
  | {
      readonly kind: "sequential";
      readonly able: number;
      readonly unready: number;
      readonly wronglyLetOn: number;
      readonly wronglyHeld: number;
    };

export interface GoBack {
  /** Number of takes in a row, each beyond tolerance, before the student goes back. */
  readonly after: number;
  /** Number of rungs to go back. */
  readonly by: number;
}

export interface Drill {
  readonly name: string;
  readonly title?: string;
  /** What the student should do and listen for. */
  readonly about?: string;
  readonly pattern: Pattern;
  /** Name of the part that the student plays. The expected onsets are its notes. */
  readonly student: string;
  /** Whole notes per beat of the tempo: 1/4, 3/8. */
  readonly beat: Fraction;
  /** Number of phrases in one take. */
  readonly phrases: number;
  /** Present where what is no take is played round and round, from the first phrase to the last, until it is stopped. */
  readonly endless?: true;
  /** Length of the count-in before the downbeat of bar 1, in whole notes. A pick-up is at its end. */
  readonly countIn: Fraction;
  /** Percussion voice that counts in; absent for the usual click. */
  readonly countInVoice?: string;
  /** Length of the beginning of the pattern that is played after the last phrase, in whole notes, so that the last silence has a landing; 0 for none. */
  readonly outro: Fraction;
  readonly dropout?: {
    readonly place: DropoutPlace;
    /** Names of the parts whose notes may ring on into the silences. */
    readonly letRing: readonly string[];
  };
  /** Open bars: the scale for the pattern's own key, and the shortest note value looked for in them (whole notes). */
  readonly open?: { readonly scale: Scale; readonly subdivision: Fraction };
  /** Values of the parameters that do not climb. */
  readonly fixed: Partial<Settings>;
  /** In the order in which they climb. Empty: the drill has one rung. */
  readonly ladders: readonly Ladder[];
  /** At least one mix. The first is the one in which takes are assessed by default. */
  readonly mixes: readonly Mix[];
  readonly tolerance: Tolerance;
  readonly gate: Gate;
  readonly goBack?: GoBack;
  readonly needs: readonly string[];
  /** The instruments for which the student's part is meant. */
  readonly players: readonly { readonly instrument: Instrument; readonly octave: number }[];
}
