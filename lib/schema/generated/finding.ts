// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Advice } from "./take.js";
import type { Beats, Milliseconds, MillisecondsPerRootBeat, Percent, Seconds, Written } from "../../base/index.js";
/**
 * Inside the tolerance, outside it, or not decidable from this take.
 */
export type Verdict = "within" | "beyond" | "unclear";
/**
 * Probability that the true values lie inside the tolerance.
 */
export type Probability = number | Unmeasured;
/**
 * A number, at most a thousand million either way, or the reason why there is none.
 */
export type Measure = number | Unmeasured;
/**
 * A number from 0 to a thousand million, or the reason why there is none.
 */
export type Size = number | Unmeasured;
/**
 * A number from 0 to 1, or the reason why there is none.
 */
export type Share = number | Unmeasured;

/**
 * What a take showed. Positive is late, slower, dragging; negative is early, faster, rushing. A value that could not be measured says why.
 */
export interface Finding {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 1;
  /**
   * Name of the take.
   */
  readonly take?: string;
  /**
   * Name of the drill.
   */
  readonly drill?: string;
  /**
   * Settings of the rung in canonical form.
   */
  readonly rung?: string;
  /**
   * Name of the mix played to.
   */
  readonly mix?: string;
  readonly verdict: Verdict;
  readonly probability: Probability;
  /**
   * Why the verdict is `unclear`, or what else a reader must know; empty when there is nothing to add.
   *
   * @maxItems 100000
   */
  readonly reasons: readonly Reason[];
  /**
   * Which onset was taken for which expected note: pairs of indices [expected, onset], from 0, in order of time.
   */
  readonly pairs: readonly (readonly [number, number])[];
  /**
   * Indices of expected notes that were not played.
   *
   * Items: Range: at least 0.
   */
  readonly missed: readonly number[];
  /**
   * Indices of onsets that were not expected (those in open bars are not counted).
   *
   * Items: Range: at least 0.
   */
  readonly added: readonly number[];
  /**
   * The player's constant offset while accompanied: habitual lead and latency together (latency taken off when it was given), in milliseconds. Range: -1000000000 to 1000000000.
   */
  readonly offsetMs: Written<Milliseconds> | Unmeasured;
  /**
   * One entry per dropout, in order.
   *
   * @maxItems 100000
   */
  readonly dropouts: readonly DropoutFinding[];
  /**
   * One entry per stretch of open bars, in order.
   */
  readonly openBars: readonly OpenFinding[];
  readonly steadiness: Steadiness;
  /**
   * What was noticed when the take was read or listened to, such as a recording that is clipped; left out when nothing was.
   */
  readonly advice?: readonly Advice[];
  /**
   * The finding in one plain sentence.
   */
  readonly sentence: string;
  /**
   * The same sentence before it is worded, for another language; left out in findings of before there were languages.
   */
  readonly message?: Message;
}
/**
 * Could not be measured, and why.
 */
export interface Unmeasured {
  /**
   * The reason.
   */
  readonly unmeasured: string;
  /**
   * The same reason before it is worded.
   */
  readonly message?: Phrase;
}
/**
 * A sentence before it is worded: which one, and what it speaks of.
 */
export interface Message {
  /**
   * Name of the message in the catalogues of `leeway/words`.
   */
  readonly key: string;
  /**
   * What the sentence speaks of, by name: numbers, texts such as names, phrases, or lists of texts and phrases.
   */
  readonly parameters: {
    readonly [k: string]: number | string | Phrase | readonly (string | Phrase)[];
  };
}
/**
 * A part of a sentence before it is worded.
 */
export interface Phrase {
  /**
   * Name of the message in the catalogues of `leeway/words`.
   */
  readonly key: string;
  /**
   * What it speaks of, by name: numbers and texts.
   */
  readonly parameters: {
    readonly [k: string]: number | string;
  };
}
/**
 * A reason in the finding: a stable code and a sentence.
 */
export interface Reason {
  /**
   * Stable name of the cause.
   */
  readonly code: string;
  /**
   * The reason as a sentence.
   */
  readonly says: string;
  /**
   * The same reason before it is worded.
   */
  readonly message?: Message;
  /**
   * Index of the dropout it is about. Range: at least 0.
   */
  readonly dropout?: number;
}
/**
 * What one dropout showed.
 */
export interface DropoutFinding {
  /**
   * Start of the silence, seconds from bar 1. Range: -1000000 to 1000000.
   */
  readonly from: Written<Seconds>;
  /**
   * End of the silence, seconds from bar 1. Range: -1000000 to 1000000.
   */
  readonly to: Written<Seconds>;
  /**
   * Change of the player's time from the start of the silence to its end, milliseconds. Range: -1000000000 to 1000000000.
   */
  readonly driftMs: Written<Milliseconds> | Unmeasured;
  /**
   * The same as per cent of tempo: positive is slower. Range: -1000000000 to 1000000000.
   */
  readonly driftPercent: Written<Percent> | Unmeasured;
  /**
   * Standard error of the drift, milliseconds. Range: 0 to 1000000000.
   */
  readonly standardErrorMs: Written<Milliseconds> | Unmeasured;
  /**
   * The note expected where the accompaniment returns: where it fell, the constant offset taken off, in milliseconds; or that it was left out; or why it is not known. null when there is no landing: the accompaniment does not return, or no note is expected soon enough.
   */
  readonly landing: Landing | LeftOut | Unmeasured | null;
  /**
   * A slip in this silence or at its landing: the player came in elsewhere in the music; null when there is none, or none that is likelier than not.
   */
  readonly slip?: Slip | null;
  /**
   * How much of the silence was played.
   */
  readonly played?: Played;
  /**
   * Beats after landing until the player stays inside the landing tolerance; null when the accompaniment does not return. Range: 0 to 1000000000.
   */
  readonly recoveryBeats: Written<Beats> | null | Unmeasured;
  readonly verdict: Verdict;
  readonly probability: Probability;
}
/**
 * Where the landing note fell.
 */
export interface Landing {
  /**
   * Milliseconds, positive late.
   */
  readonly ms: Written<Milliseconds>;
  /**
   * Its standard error, milliseconds: that of the constant offset. Range: at least 0.
   */
  readonly standardErrorMs: Written<Milliseconds>;
}
/**
 * The landing note was left out.
 */
export interface LeftOut {
  /**
   * Always true.
   */
  readonly leftOut: true;
}
/**
 * Notes of a silence, from its start up to the landing, which is not among them.
 */
export interface Played {
  /**
   * Notes that were played. Range: at least 0.
   */
  readonly notes: number;
  /**
   * Notes that are expected. Range: at least 0.
   */
  readonly of: number;
  /**
   * With fewer played the silence is not within: the share the tolerance asks for, rounded up. Range: at least 0.
   */
  readonly asked: number;
}
/**
 * How far the player came to stand from the place in the music where the accompaniment is, and when.
 */
export interface Slip {
  /**
   * Beats, positive late: the player waited; negative: he skipped.
   */
  readonly beats: Written<Beats>;
  /**
   * The first note that was displaced, by its place in the score, seconds from bar 1.
   */
  readonly from: Written<Seconds>;
  /**
   * The first note in place again before the next silence, seconds from bar 1; null when the player stayed displaced.
   */
  readonly takenBack: Written<Seconds> | null;
}
/**
 * What one stretch of open bars showed.
 */
export interface OpenFinding {
  /**
   * Start, seconds from bar 1. Range: -1000000 to 1000000.
   */
  readonly from: Written<Seconds>;
  /**
   * End, seconds from bar 1. Range: -1000000 to 1000000.
   */
  readonly to: Written<Seconds>;
  /**
   * Notes played. Range: at least 0.
   */
  readonly notes: number;
  /**
   * Change of the player's pulse over the stretch, milliseconds. Range: -1000000000 to 1000000000.
   */
  readonly driftMs: Written<Milliseconds> | Unmeasured;
  /**
   * The same as per cent of tempo. Range: -1000000000 to 1000000000.
   */
  readonly driftPercent: Written<Percent> | Unmeasured;
  /**
   * Standard error of the drift, milliseconds. Range: 0 to 1000000000.
   */
  readonly standardErrorMs: Written<Milliseconds> | Unmeasured;
  /**
   * Probability that onsets placed at random would lie as close to the subdivision as these (Rayleigh test).
   */
  readonly lockP?: Share;
  /**
   * Share of the notes that belong to the stated scale, 0 to 1.
   */
  readonly inScale: Share;
}
/**
 * Steadiness of the player, milliseconds.
 */
export interface Steadiness {
  /**
   * Standard deviation around the player's own offset while accompanied. Range: 0 to 1000000000.
   */
  readonly accompaniedMs: Written<Milliseconds> | Unmeasured;
  /**
   * Standard deviation around the player's own drifting time in the silences. Range: 0 to 1000000000.
   */
  readonly aloneMs: Written<Milliseconds> | Unmeasured;
  /**
   * Timekeeper part of the steadiness, per square root of a beat. Range: 0 to 1000000000.
   */
  readonly clockMs: Written<MillisecondsPerRootBeat> | Unmeasured;
  /**
   * Motor part of the steadiness, per note. Range: 0 to 1000000000.
   */
  readonly motorMs: Written<Milliseconds> | Unmeasured;
  readonly verdict: Verdict;
  readonly probability: Probability;
}
