// Generated from schemas/ by `npm run types`; change the schema instead.

/**
 * The students a course is rehearsed on: how their traits are distributed. What is left out is as in the built-in population.
 */
export interface StudentPopulation {
  /**
   * Version of this format; 1 when left out. A reader refuses versions it does not know.
   */
  readonly version?: 1;
  /**
   * Name of the population.
   */
  readonly population: string;
  /**
   * Who they are, and where the figures are from.
   */
  readonly about?: string;
  /**
   * The traits that differ from the built-in population.
   */
  readonly traits?: TraitsDocument;
}
/**
 * How each trait is distributed among the students; traits are independent of one another.
 */
export interface TraitsDocument {
  /**
   * Noise of the hand before any practice, ms a note (standard deviation).
   */
  readonly motor?: SkewedTrait;
  /**
   * Noise of the inner clock for each square root of a beat, in multiples of `motor`.
   */
  readonly clock?: SkewedTrait;
  /**
   * How much the tempo differs from silence to silence, as a ratio of tempo for each ms of clock noise (standard deviation).
   */
  readonly bias?: SkewedTrait;
  /**
   * Usual tempo error in a silence at 120 beats a minute, per cent of tempo: positive drags, negative rushes.
   */
  readonly lean?: LevelTrait;
  /**
   * By how much that error changes when the beat is e times as long, per cent of tempo.
   */
  readonly pull?: LevelTrait;
  /**
   * By how much that error changes when there are twice as many notes a beat, per cent of tempo: negative rushes in dense riffs.
   */
  readonly density?: LevelTrait;
  /**
   * Noise that practice can still take away, as a share of what will stay.
   */
  readonly excess?: SkewedTrait;
  /**
   * Share of that excess taken away by one take.
   */
  readonly rate?: SkewedTrait;
  /**
   * Share of a day's gain that is lost on each day without practice.
   */
  readonly forgets?: SkewedTrait;
  /**
   * Silences in which the player comes in half a beat or a beat off, per cent.
   */
  readonly slips?: SkewedTrait;
  /**
   * Returns of the accompaniment at which the player leaves the note out, per cent.
   */
  readonly "landings-left-out"?: SkewedTrait;
  /**
   * Notes left out anywhere, per cent.
   */
  readonly missing?: SkewedTrait;
  /**
   * Days of practice a week.
   */
  readonly "days-a-week"?: LevelTrait;
  /**
   * Takes on such a day.
   */
  readonly "takes-a-session"?: SkewedTrait;
}
/**
 * A positive trait whose logarithm is normal.
 */
export interface SkewedTrait {
  /**
   * Half of the students have less. Range: above 0, at most 1000.
   */
  readonly median: number;
  /**
   * Two thirds of the students lie between the median divided by this and the median times this; 1: all are alike. Range: 1 to 10.
   */
  readonly ratio: number;
}
/**
 * A trait that is normal.
 */
export interface LevelTrait {
  /**
   * The mean. Range: -100 to 100.
   */
  readonly mean: number;
  /**
   * Standard deviation; 0: all are alike. Range: 0 to 100.
   */
  readonly sd: number;
}
