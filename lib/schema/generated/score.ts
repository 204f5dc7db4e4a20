// Generated from schemas/ by `npm run types`; change the schema instead.

/**
 * What one rung of a drill sounds like in one mix, and what is expected of the student. Positions are exact fractions of a whole note counted from the downbeat of bar 1; times are seconds from the same downbeat, so that a pick-up is negative.
 */
export interface Score {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 1;
  /**
   * Name of the curriculum the drill is from.
   */
  readonly curriculum?: string;
  /**
   * Edition of that curriculum (semantic version).
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
   * Length of one phrase, in seconds.
   */
  readonly phraseSeconds?: number;
  /**
   * Seconds from the downbeat of bar 1 to the end of the take.
   */
  readonly duration: number;
  /**
   * Seconds of count-in before the downbeat of bar 1; 0 when there is none.
   */
  readonly countIn: number;
  /**
   * Length of one beat in seconds.
   */
  readonly beat: number;
  /**
   * The note value of one beat as a fraction of a whole note.
   */
  readonly beatUnit?: string;
  /**
   * Beats per minute.
   */
  readonly tempo?: number;
  /**
   * Swing as ratio and subdivision; absent when the notes are straight.
   */
  readonly swing?: string;
  /**
   * Concert key and mode.
   */
  readonly key?: string;
  /**
   * Frequency of A4 in hertz; absent at the usual 440.
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
 * A stretch of time, `from` included, `to` excluded.
 */
export interface Stretch {
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly from: number;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly to: number;
}
/**
 * One bar of the take.
 */
export interface ScoreBar {
  /**
   * Number of the bar in the take.
   */
  readonly bar: number;
  /**
   * Exact position in whole notes from the downbeat of bar 1.
   */
  readonly position: string;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly at: number;
  /**
   * Meter of the bar.
   */
  readonly meter: string;
  /**
   * Which phrase of the pattern the bar belongs to; the outro after the last phrase counts as one more.
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
  readonly at: number;
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
   * Number of the bar in the take; 0 for a pick-up before bar 1.
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
  readonly from: number;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly to: number;
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
  readonly landing: number | null;
}
/**
 * Bars left open.
 */
export interface OpenStretch {
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly from: number;
  /**
   * Seconds from the downbeat of bar 1.
   */
  readonly to: number;
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
   */
  readonly pitchClasses: readonly number[];
  /**
   * When each subdivision falls, in seconds from bar 1, swing included; without it the subdivisions are even.
   */
  readonly grid?: readonly number[];
  /**
   * Length in seconds of the smallest subdivision the player is expected to use.
   */
  readonly subdivision: number;
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
   * The notes that sound, in order; a part that is off has none.
   */
  readonly notes: readonly ScoreNote[];
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
  readonly at: number;
  /**
   * Length in seconds, swing included; cut at the start of a silence.
   */
  readonly seconds: number;
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
   * Largest drift in a dropout, per cent of tempo, either way.
   */
  readonly driftPercent?: number;
  /**
   * Largest drift in a dropout, milliseconds, either way.
   */
  readonly driftMs?: number;
  /**
   * Largest offset of the first note at landing, milliseconds, either way.
   */
  readonly landingMs?: number;
  /**
   * Largest steadiness (standard deviation) while accompanied, milliseconds.
   */
  readonly steadinessMs?: number;
  /**
   * Smallest share of the notes of each silence that must be played, rounded down to whole notes; a half when it is absent.
   */
  readonly playedShare?: number;
}
