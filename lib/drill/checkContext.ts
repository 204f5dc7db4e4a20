import type { Collector } from "./collector.js";
import type { Drill, Parameter } from "./model.js";

/** A drill that can be read, to be checked for whether it can be played, heard and judged. */
export interface CheckContext {
  readonly drill: Drill;
  readonly found: Collector;
  /** Where the drill says a parameter: its ladder, or its fixed value. */
  readonly pointerOf: (parameter: Parameter) => string;
}
