import type { Drill } from "../drill/index.js";
import type { Instrument, Pattern } from "../pattern/index.js";

/** A course as read: plain data, safe to serialise as JSON and to ship without its YAML. */
export interface Curriculum {
  readonly name: string;
  /** Semantic version (SemVer 2.0.0). */
  readonly edition: string;
  readonly title: string;
  readonly about?: string;
  /** Instruments the course describes itself, beside the built-in table. */
  readonly instruments: Readonly<Record<string, Instrument>>;
  readonly patterns: Readonly<Record<string, Pattern>>;
  /** In the order written. */
  readonly drills: readonly Drill[];
  /** Names drills had in earlier editions -> their names now. */
  readonly formerly: Readonly<Record<string, string>>;
}
