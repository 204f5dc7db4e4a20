// Generated from schemas/ by `npm run types`; change the schema instead.

/**
 * A course that was compiled ahead, as `leeway compile` writes it: everything in it is worked out, so that it is opened without a reader of YAML. What is inside patterns, ladders and gates is leeway's own and changes with the version.
 */
export interface CompiledCourse {
  /**
   * Version of this format.
   */
  readonly version: 1;
  /**
   * CRC-32 (ISO/IEC 3309) of `course` as JSON without blanks, in UTF-8; hexadecimal.
   */
  readonly checksum: string;
  readonly course: CompactCourse;
}
/**
 * The course; patterns and players' instruments are written once.
 */
export interface CompactCourse {
  /**
   * Name of the course.
   */
  readonly name: string;
  /**
   * Edition (SemVer 2.0.0).
   */
  readonly edition: string;
  /**
   * Title for people.
   */
  readonly title: string;
  /**
   * What the course is about.
   */
  readonly about?: string;
  /**
   * Author, arranger, copyright, licence, address, logo and language, where they are named.
   */
  readonly imprint?: {
    /**
     * As the course writes it.
     */
    readonly [k: string]: string;
  };
  /**
   * Instruments the course describes, by name.
   */
  readonly instruments: {
    /**
     * An instrument.
     */
    readonly [k: string]: {};
  };
  /**
   * Patterns by name.
   */
  readonly patterns: {
    /**
     * A pattern.
     */
    readonly [k: string]: {};
  };
  /**
   * Instruments of players, which drills number from 0.
   *
   * Items: An instrument.
   */
  readonly played: readonly {}[];
  /**
   * Drills in the order written.
   */
  readonly drills: readonly CompactDrill[];
  /**
   * Former names of drills, with the present ones.
   */
  readonly formerly: {
    readonly [k: string]: string;
  };
}
/**
 * A drill.
 */
export interface CompactDrill {
  /**
   * Its name.
   */
  readonly name: string;
  /**
   * Name of its pattern.
   */
  readonly pattern: string;
  /**
   * The part the student plays.
   */
  readonly student: string;
  /**
   * A fraction in lowest terms; lengths and positions are in whole notes.
   */
  readonly beat: {
    /**
     * Numerator.
     */
    readonly n: number;
    /**
     * Denominator. Range: at least 1.
     */
    readonly d: number;
  };
  /**
   * Phrases in a take. Range: at least 1.
   */
  readonly phrases: number;
  /**
   * What is no take is played round and round.
   */
  readonly endless?: true;
  /**
   * Its ladders, in the order in which they climb.
   *
   * Items: A ladder.
   */
  readonly ladders: readonly {}[];
  /**
   * Who plays it.
   */
  readonly players: readonly CompactPlayer[];
}
/**
 * A player.
 */
export interface CompactPlayer {
  /**
   * Number of the instrument in `played`. Range: at least 0.
   */
  readonly instrument: number;
  /**
   * Octaves the part is moved by.
   */
  readonly octave: number;
}
