import type { Pattern } from "../../pattern/index.js";
import type { GrowthDocument } from "../../schema/index.js";
import type { Collector } from "./collector.js";

/** What a dropout says of silences that grow: steps, or a list of lengths. */
export type WrittenGrowth = GrowthDocument | readonly string[];

/** The pattern and the names against which settings are checked. */
export interface DrillNames {
  readonly pattern: Pattern;
  readonly student: string;
  readonly mixes: readonly string[];
  /** What the dropout says of silences that grow. */
  readonly grows?: WrittenGrowth | undefined;
}

/** One ladder, or the lengths of silence, in a drill document, and the collector of its problems. */
export interface LadderPlace {
  readonly names: DrillNames;
  readonly found: Collector;
  readonly pointer: string;
}
