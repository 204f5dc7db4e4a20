import type { Fraction, Milliseconds, Percent } from "../base/index.js";
import type { Instrument, Pattern, Scale } from "../pattern/index.js";
import type { Span } from "../time/index.js";

/** What a part does in a mix: sounds throughout, falls silent in dropouts, or never sounds. */
export type Does = "plays" | "drops" | "off";
/**
 * Part name -> what it does. Accompaniment that is not named, or named "drops", drops when it is among the rung's dropping
 * parts and plays otherwise; the student's part is off when it is not named.
 */
export interface Mix {
  readonly name: string;
  readonly parts: Readonly<Record<string, Does>>;
}

/** One setting of everything a ladder can change. Values are canonical texts, so that equal settings are equal strings. */
export interface Settings {
  /** Canonical span text: "1/2 bar", "2 bars", "3 beats". Absent in drills without dropout. */
  readonly dropout?: string;
  /** Beats per minute of the drill's beat unit, shortest decimal text: "96", "92.5". */
  readonly tempo: string;
  readonly variant?: string;
  /** "D dorian". */
  readonly key?: string;
  readonly mix?: string;
  /** Parts that drop, sorted, joined by "+": "bass+kit". */
  readonly parts?: string;
  /** Open bars, ascending, joined by "+": "3+4"; "none" when empty. */
  readonly open?: string;
}
export type Parameter = keyof Settings;

/** One parameter that climbs. `values` is computed by arithmetic: never listed, however long. */
export interface Ladder {
  readonly parameter: Parameter;
  readonly count: number;
  /** Ladders are data: either a list or an arithmetic progression. */
  readonly values:
    | { readonly kind: "list"; readonly texts: readonly string[] }
    /** `by` counts the unit of `from`. */
    | { readonly kind: "spans"; readonly from: Span; readonly by: Fraction }
    | { readonly kind: "tempi"; readonly from: Fraction; readonly by: Fraction }
    /** Rung k is `from * ratio^k`, rounded to a tenth of a beat per minute. */
    | { readonly kind: "tempi by ratio"; readonly from: Fraction; readonly ratio: Fraction };
  /** Where it starts again when the next ladder climbs: "bottom", or this many rungs back from its top. */
  readonly restart: "bottom" | number;
}

export type DropoutPlace =
  | { readonly at: "end" }
  | { readonly at: "start" }
  /** The silence ends with each of these bars of the phrase, so that the accompaniment returns on a downbeat. */
  | { readonly at: "bars"; readonly bars: readonly number[] }
  /** The downbeat of re-entry is drawn for each phrase; a pure function of seed, phrase and settings. */
  | { readonly at: "random"; readonly seed: number };

export interface Tolerance {
  readonly drift?: { readonly percent: Percent } | { readonly ms: Milliseconds };
  readonly reentry?: Milliseconds;
  readonly steadiness?: Milliseconds;
}

export type Gate =
  | { readonly kind: "clean of last"; readonly clean: number; readonly of: number }
  | { readonly kind: "in a row"; readonly count: number }
  /** Wald's sequential test: chance of a clean take `able` (let on) against `unready` (held), with error rates. */
  | {
      readonly kind: "sequential";
      readonly able: number;
      readonly unready: number;
      readonly wronglyLetOn: number;
      readonly wronglyHeld: number;
    };

export interface Ease {
  /** Takes in a row, each beyond tolerance, before the rung is made easier. */
  readonly after: number;
  /** Rungs to go back. */
  readonly by: number;
}

export interface Drill {
  readonly name: string;
  readonly title?: string;
  /** What the student should do and listen for. */
  readonly about?: string;
  readonly pattern: Pattern;
  /** The part the student plays: the source of the expected onsets. */
  readonly student: string;
  /** Whole notes per beat of the tempo: 1/4, 3/8. */
  readonly beat: Fraction;
  /** Passes of the pattern in one take. */
  readonly phrases: number;
  /** Length of the count-in before the downbeat of bar 1, whole notes; a pick-up falls into its end. */
  readonly countIn: Fraction;
  /** Whole notes of the pattern played again after the last phrase, so that the last silence has a re-entry; 0 for none. */
  readonly landing: Fraction;
  readonly dropout?: {
    readonly place: DropoutPlace;
    /** Parts whose notes may ring on into the silences. */
    readonly letRing: readonly string[];
  };
  /** Open bars: the scale for the pattern's own key, and the shortest note value looked for in them (whole notes). */
  readonly open?: { readonly scale: Scale; readonly subdivision: Fraction };
  /** Settings that do not climb. */
  readonly fixed: Partial<Settings>;
  /** First climbs first. Empty: the drill has one rung. */
  readonly ladders: readonly Ladder[];
  /** At least one; the first is the default for assessing. */
  readonly mixes: readonly Mix[];
  readonly tolerance: Tolerance;
  readonly gate: Gate;
  readonly ease?: Ease;
  readonly needs: readonly string[];
  /** Instruments the student's part is meant for. */
  readonly players: readonly { readonly instrument: Instrument; readonly octave: number }[];
}
