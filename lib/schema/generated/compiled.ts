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
   * Title for people.
   */
  readonly title?: string;
  /**
   * What the student should do and listen for.
   */
  readonly about?: string;
  /**
   * The part the student plays.
   */
  readonly student: string;
  /**
   * The beat of the tempo, in whole notes.
   */
  readonly beat: CompiledFraction;
  /**
   * Phrases in a take. Range: at least 1.
   */
  readonly phrases: number;
  /**
   * What is no take is played round and round.
   */
  readonly endless?: true;
  /**
   * The count-in before bar 1, in whole notes.
   */
  readonly countIn: CompiledFraction;
  /**
   * Percussion voice that counts in; absent for the usual click.
   */
  readonly countInVoice?: string;
  /**
   * How much of the pattern is played after the last phrase, so that the last silence has a landing.
   */
  readonly outro?: CompiledFraction;
  /**
   * Where in a phrase the silence is, and which parts ring on into it.
   */
  readonly dropout?: {};
  /**
   * The scale of open bars, and the shortest note value looked for in them.
   */
  readonly open?: {};
  /**
   * Settings that do not climb, as canonical texts.
   */
  readonly fixed: {
    readonly [k: string]: string;
  };
  /**
   * Its ladders, in the order in which they climb.
   *
   * Items: A ladder.
   */
  readonly ladders: readonly {}[];
  /**
   * Its mixes; takes are assessed in the first unless they name another.
   *
   * @minItems 1
   *
   * Items: A mix: its name, and what each part does.
   */
  readonly mixes: readonly {}[];
  /**
   * Limits of drift, landing (ms), steadiness (ms) and of how much must be played.
   */
  readonly tolerance: {};
  /**
   * When a student is let on.
   */
  readonly gate: {};
  /**
   * After how many takes beyond tolerance a student goes back, and by how many rungs.
   */
  readonly goBack?: {};
  /**
   * Drills to be completed first.
   */
  readonly needs: readonly string[];
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
/**
 * A fraction in lowest terms; lengths and positions are in whole notes.
 */
export interface CompiledFraction {
  /**
   * Numerator.
   */
  readonly n: number;
  /**
   * Denominator. Range: at least 1.
   */
  readonly d: number;
}
