// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Milliseconds, Seconds, Written } from "../../base/index.js";
/**
 * What a student played: the times at which notes began.
 */
export interface Take {
  /**
   * Version of this format; 1 when left out. A reader refuses versions it does not know.
   */
  readonly version?: 1;
  /**
   * Name of the take, unique for the student: the same id is counted once.
   */
  readonly id?: string;
  /**
   * When each note began, in seconds; a bare number or an object with more. Any order; an empty list is a take in which nothing was played.
   *
   * @maxItems 200000
   */
  readonly onsets: readonly (Written<Seconds> | PlayedOnset)[];
  /**
   * What time 0 of the onsets is: the start of the count-in, so when left out, or the downbeat of bar 1.
   */
  readonly zero?: "count-in" | "bar-1";
  /**
   * Known delay of the recording, in milliseconds (positive: onsets arrive late); leave out when unknown. Range: -2000 to 2000.
   */
  readonly latencyMs?: Written<Milliseconds>;
  /**
   * Standard error of that delay (its standard deviation from take to take), in milliseconds, as found when the device was calibrated. Range: 0 to 1000.
   */
  readonly latencyStandardErrorMs?: Written<Milliseconds>;
  /**
   * Timing noise of the recording itself per onset (standard deviation, milliseconds), for instance of an onset detector; leave out when negligible. Range: 0 to 100.
   */
  readonly motorFloorMs?: Written<Milliseconds>;
  /**
   * When it was played (RFC 3339).
   */
  readonly played?: string;
  /**
   * Who played it: a pseudonym is enough.
   */
  readonly student?: string;
  /**
   * The drill it was played to.
   */
  readonly drill?: string;
  /**
   * The rung it was played to, by its settings; a number would be another rung in another edition.
   */
  readonly rung?: string;
  /**
   * The mix it was played to.
   */
  readonly mix?: string;
  /**
   * The draw of silences at random places it was played to.
   */
  readonly draw?: string;
  /**
   * What was noticed when the take was read or listened to, such as a recording that is clipped; left out when nothing was.
   */
  readonly advice?: readonly Advice[];
}
/**
 * A problem that stops nothing.
 */
export interface Advice {
  /**
   * Stable name of the cause.
   */
  readonly code: string;
  /**
   * Errors are not advice: they stop the work.
   */
  readonly severity: "advice";
  /**
   * What was noticed, in one sentence.
   */
  readonly message: string;
  readonly where: AdvicePlace;
  /**
   * What to do, where that is known.
   */
  readonly remedy?: string;
}
/**
 * Where it was noticed, as far as that is known.
 */
export interface AdvicePlace {
  /**
   * The file.
   */
  readonly file?: string;
  /**
   * The line in it, from 1. Range: at least 1.
   */
  readonly line?: number;
  /**
   * The column, from 1. Range: at least 1.
   */
  readonly column?: number;
  /**
   * RFC 6901 JSON pointer.
   */
  readonly pointer?: string;
  /**
   * Characters into the text the pointer leads to. Range: at least 0.
   */
  readonly offset?: number;
}
/**
 * One onset with what is known of the note.
 */
export interface PlayedOnset {
  /**
   * Seconds. Range: -3600 to 86400.
   */
  readonly at: Written<Seconds>;
  /**
   * Concert pitch: a name in scientific notation, or a MIDI note number. Range: 0 to 127.
   */
  readonly pitch?: string | number;
  /**
   * How strongly it was played, 0 to 127. Range: 0 to 127.
   */
  readonly velocity?: number;
}
