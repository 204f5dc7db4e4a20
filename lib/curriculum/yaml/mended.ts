import type { YAMLError } from "yaml";
import type { Problem } from "../problem.js";

/** One thing that is wrong with a text as YAML, and the text with it put right. */
export interface Mended {
  readonly problem: Problem;
  readonly text: string;
  /** What is still wrong with it. */
  readonly errors: readonly YAMLError[];
}
