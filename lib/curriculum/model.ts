import type { Drill } from "../drill/index.js";
import type { Instrument, Pattern } from "../pattern/index.js";

/** A course as plain data: it can be written as JSON and used without its YAML. */
export interface Curriculum {
  readonly name: string;
  /** Semantic version (SemVer 2.0.0). */
  readonly edition: string;
  readonly title: string;
  readonly about?: string;
  /** Instruments that the course describes, by name; they come beside the built-in table. */
  readonly instruments: Readonly<Record<string, Instrument>>;
  readonly patterns: Readonly<Record<string, Pattern>>;
  /** In the order written. */
  readonly drills: readonly Drill[];
  /** Former name -> present name of drills that were renamed. */
  readonly formerly: Readonly<Record<string, string>>;
}
