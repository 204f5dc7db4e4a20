// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Bpm, Milliseconds, Percent, Seconds, Written } from "../../base/index.js";
/**
 * What one rung of a drill sounds like in one mix, and what is expected of the student. Positions are exact fractions of a whole note counted from the downbeat of bar 1; times are seconds from the same downbeat, so that a pick-up is negative.
 */
export interface Score {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 1;
  /**
   * Name of the course the drill is from.
   */
  readonly curriculum?: string;
  /**
   * Edition of that course (semantic version).
   */
  readonly edition?: string;
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * The settings of the rung in canonical form; two rungs are the same when this text is the same.
   */
  readonly rung: string;
  /**
   * Name of the mix: who plays, who drops, who is off.
   */
  readonly mix: string;
  /**
   * The draw that chose the places of the silences, when they lie at random places and one was named.
   */
  readonly draw?: string;
  /**
   * Length of the first phrase, in seconds. Range: above 0.
   */
  readonly phraseSeconds?: Written<Seconds>;
  /**
   * Seconds from the downbeat of bar 1 to the end of the take. Range: at least 0.
   */
  readonly duration: Written<Seconds>;
  /**
   * Seconds of count-in before the downbeat of bar 1; 0 when there is none. Range: at least 0.
   */
  readonly countIn: Written<Seconds>;
  /**
   * Percussion voice that counts in; absent for the usual click.
   */
  readonly countInVoice?: string;
  /**
   * Length of one beat in seconds; where the tempo rises inside the take, at its beginning. Range: above 0.
   */
  readonly beat: Written<Seconds>;
  /**
   * The note value of one beat as a fraction of a whole note.
   */
  readonly beatUnit?: string;
  /**
   * Beats per minute; where the tempo rises inside the take, at its beginning. Range: above 0.
   */
  readonly tempo?: Written<Bpm>;
  /**
   * The tempi of a take whose tempo rises (or falls) from phrase to phrase, in order; absent where one tempo holds throughout.
   *
   * @minItems 2
   */
  readonly tempi?: readonly ScoreTempo[];
  /**
   * Swing as ratio and subdivision; absent when the notes are straight.
   */
  readonly swing?: string;
  /**
   * Concert key and mode.
   */
  readonly key?: string;
  /**
   * Frequency of A4 in hertz; absent at the usual 440. Range: above 0.
   */
  readonly tuningHz?: number;
  /**
   * Every bar of the take, in order.
   */
  readonly bars: readonly ScoreBar[];
  /**
   * The onsets expected of the student, in order of time. Notes of one part that start together are one onset.
   */
  readonly expected: readonly ExpectedOnset[];
  /**
   * The stretches in which the parts that drop fall silent, in order of time.
   */
  readonly dropouts: readonly Dropout[];
  /**
   * The stretches in which the student hears something to play to (count-in included, hence negative times). Elsewhere the student's time runs free.
   */
  readonly audible: readonly Stretch[];
  /**
   * Bars left to the player to improvise in; nothing is expected there.
   */
  readonly open: readonly OpenStretch[];
  /**
   * Every part: what it does in this mix and the notes it sounds.
   */
  readonly parts: readonly ScorePart[];
  readonly tolerance: ScoreTolerance;
}
/**
 * A tempo of the take, and where it begins.
 */
export interface ScoreTempo {
  /**
   * Exact position in whole notes from the downbeat of bar 1.
   */
  readonly position: string;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly at: Written<Seconds>;
  /**
   * Beats per minute. Range: above 0.
   */
  readonly tempo: Written<Bpm>;
  /**
   * Length of one beat in seconds. Range: above 0.
   */
  readonly beat: Written<Seconds>;
}
/**
 * A stretch of time, `from` included, `to` excluded.
 */
export interface Stretch {
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly from: Written<Seconds>;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly to: Written<Seconds>;
}
/**
 * One bar of the take.
 */
export interface ScoreBar {
  /**
   * Number of the bar in the take. Range: at least 1.
   */
  readonly bar: number;
  /**
   * Exact position in whole notes from the downbeat of bar 1.
   */
  readonly position: string;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly at: Written<Seconds>;
  /**
   * Meter of the bar.
   */
  readonly meter: string;
  /**
   * Which phrase of the pattern the bar belongs to; the outro after the last phrase counts as one more. Range: at least 1.
   */
  readonly phrase: number;
  /**
   * Chord symbols of the bar, as written.
   */
  readonly chord?: string;
}
/**
 * One onset expected of the student.
 */
export interface ExpectedOnset {
  /**
   * Exact position in whole notes from the downbeat of bar 1.
   */
  readonly position: string;
  /**
   * Seconds from the downbeat of bar 1, swing included.
   */
  readonly at: Written<Seconds>;
  /**
   * How much later than the swing has it a note of a tuplet begins or ends to sound, in whole notes; negative is earlier, absent is nothing.
   */
  readonly late?: string;
  /**
   * Concert pitch in scientific notation; the highest when several sound together.
   */
  readonly pitch?: string;
  /**
   * Whether the note carries an accent.
   */
  readonly accent?: boolean;
  /**
   * The student's part.
   */
  readonly part: string;
  /**
   * Number of the bar in the take; 0 for a pick-up before bar 1. Range: at least 0.
   */
  readonly bar: number;
}
/**
 * One stretch in which parts fall silent.
 */
export interface Dropout {
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly from: Written<Seconds>;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly to: Written<Seconds>;
  /**
   * Exact position in whole notes from the downbeat of bar 1.
   */
  readonly fromPosition?: string;
  /**
   * Exact position in whole notes from the downbeat of bar 1.
   */
  readonly toPosition?: string;
  /**
   * Numbers of the bars it touches.
   */
  readonly bars?: readonly number[];
  /**
   * Parts that fall silent.
   */
  readonly parts: readonly string[];
  /**
   * Whether nothing at all is left to play to.
   */
  readonly silent: boolean;
  /**
   * When the accompaniment returns, in seconds from bar 1; null when it does not return before the take ends.
   */
  readonly landing: Written<Seconds> | null;
}
/**
 * Bars left open.
 */
export interface OpenStretch {
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly from: Written<Seconds>;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly to: Written<Seconds>;
  /**
   * Numbers of the open bars in the take.
   */
  readonly bars: readonly number[];
  /**
   * The scale to improvise in, concert pitch.
   */
  readonly scale: string;
  /**
   * Its notes as semitones above C.
   *
   * Items: Range: 0 to 11.
   */
  readonly pitchClasses: readonly number[];
  /**
   * When each subdivision falls, in seconds from bar 1, swing included; without it the subdivisions are even.
   */
  readonly grid?: readonly Written<Seconds>[];
  /**
   * Length in seconds of the smallest subdivision the player is expected to use. Range: above 0.
   */
  readonly subdivision: Written<Seconds>;
}
/**
 * One part of the score.
 */
export interface ScorePart {
  /**
   * Name of the part.
   */
  readonly name: string;
  /**
   * Instrument it is written for.
   */
  readonly instrument?: string;
  /**
   * Sounds throughout, falls silent in the dropouts, or never sounds in this mix.
   */
  readonly does: "plays" | "drops" | "off";
  /**
   * Whether this is the part the student plays.
   */
  readonly student: boolean;
  /**
   * There when notes of this part may ring on into the dropouts.
   */
  readonly rings?: true;
  /**
   * The notes that sound, in order; a part that is off has none. Where recordings of the part sound they are what is played there.
   */
  readonly notes: readonly ScoreNote[];
  /**
   * Where recordings of the part sound in place of its notes, in order; empty for a part that is off, and absent for one that was not recorded.
   */
  readonly recorded?: readonly RecordedStretch[];
}
/**
 * A stretch in which a recording of a part is heard, `from` included, `to` excluded.
 */
export interface RecordedStretch {
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly from: Written<Seconds>;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly to: Written<Seconds>;
  /**
   * The sound file, as the course names it.
   */
  readonly file: string;
  /**
   * SHA-256 of its bytes, hexadecimal: another file under this name is another recording.
   */
  readonly sha256: string;
  /**
   * Seconds from the beginning of the file to what is heard at `from`; negative where the file begins later.
   */
  readonly start: Written<Seconds>;
  /**
   * Seconds from the beginning of the file to the first of the bars that go round.
   */
  readonly takenFrom: Written<Seconds>;
  /**
   * Seconds from the beginning of the file to the end of the last of them.
   */
  readonly takenTo: Written<Seconds>;
  /**
   * Seconds of the recording that are heard in a second: 1 at the tempo it was played at, above 1 where it is made faster. Range: above 0.
   */
  readonly speed: number;
  /**
   * Semitones by which it is moved up to be in the key of the rung. Range: -24 to 24.
   */
  readonly semitones?: number;
}
/**
 * A sounding note.
 */
export interface ScoreNote {
  /**
   * Exact position in whole notes from the downbeat of bar 1.
   */
  readonly position: string;
  /**
   * Exact length in whole notes.
   */
  readonly length: string;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly at: Written<Seconds>;
  /**
   * Length in seconds, swing included; cut at the start of a silence. Range: at least 0.
   */
  readonly seconds: Written<Seconds>;
  /**
   * How much later than the swing has it a note of a tuplet begins or ends to sound, in whole notes; negative is earlier, absent is nothing.
   */
  readonly late?: string;
  /**
   * How much later than the swing has it a note of a tuplet begins or ends to sound, in whole notes; negative is earlier, absent is nothing.
   */
  readonly endLate?: string;
  /**
   * Concert pitch.
   */
  readonly pitch?: string;
  /**
   * Percussion voice.
   */
  readonly voice?: string;
  /**
   * Whether it carries an accent.
   */
  readonly accent?: boolean;
  /**
   * Whether it is played shorter than written; `seconds` already says how long it sounds.
   */
  readonly short?: boolean;
  /**
   * Whether it is held for all of its length.
   */
  readonly tenuto?: boolean;
  /**
   * Whether it is slurred to the note of its part that begins where it ends: that one has another pitch, and begins without being attacked anew.
   */
  readonly slurred?: boolean;
  /**
   * Whether it slides up to its pitch at its beginning.
   */
  readonly scoop?: boolean;
  /**
   * Whether its pitch falls off at its end.
   */
  readonly fall?: boolean;
  /**
   * Whether it is a ghost note, hardly heard.
   */
  readonly ghost?: boolean;
  /**
   * The loudness in force, as written; a note without one is as loud as mf.
   */
  readonly loudness?: "pp" | "p" | "mp" | "mf" | "f" | "ff";
}
/**
 * How far off still counts as in time. A limit that is absent is not judged.
 */
export interface ScoreTolerance {
  /**
   * Largest drift in a dropout, per cent of tempo, either way. Range: above 0.
   */
  readonly driftPercent?: Written<Percent>;
  /**
   * Largest drift in a dropout, milliseconds, either way. Range: above 0.
   */
  readonly driftMs?: Written<Milliseconds>;
  /**
   * Largest offset of the first note at landing, milliseconds, either way. Range: above 0.
   */
  readonly landingMs?: Written<Milliseconds>;
  /**
   * Largest steadiness (standard deviation) while accompanied, milliseconds. Range: above 0.
   */
  readonly steadinessMs?: Written<Milliseconds>;
  /**
   * Smallest share of the notes of each silence that must be played, rounded up to whole notes; a half when it is absent. Range: 0 to 1.
   */
  readonly playedShare?: number;
}
