import type { Drill } from "../drill/index.js";
import type { Instrument, Pattern } from "../pattern/index.js";

/** A course as plain data: it can be written as JSON and used without its YAML. */
export interface Curriculum {
  readonly name: string;
  /** Semantic version (SemVer 2.0.0). */
  readonly edition: string;
  readonly title: string;
  readonly about?: string;
  /** Absent when nothing of it is written. */
  readonly imprint?: Imprint;
  /** Instruments that the course describes, by name; they come beside the built-in table. */
  readonly instruments: Readonly<Record<string, Instrument>>;
  readonly patterns: Readonly<Record<string, Pattern>>;
  /** In the order written. */
  readonly drills: readonly Drill[];
  /** Former name -> present name of drills that were renamed. */
  readonly formerly: Readonly<Record<string, string>>;
}

/** Who made a course, where it is found and in which language, as sheets and files of sound say it; each absent when it is not written. */
export interface Imprint {
  readonly author?: string;
  readonly arranger?: string;
  readonly copyright?: string;
  readonly licence?: string;
  /** Web address; `{drill}` and `{rung}` in it stand for a drill's name and a rung's number. */
  readonly address?: string;
  /** Path of a picture below the curriculum's folder. */
  readonly logo?: string;
  /** BCP 47 tag of the language its students read: "de". */
  readonly language?: string;
}
