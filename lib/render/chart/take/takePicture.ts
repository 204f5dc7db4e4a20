import type { ScaleLinear } from "d3-scale";
import type { Finding, Score } from "../../../schema/index.js";
import type { TracePoint } from "../../../take/index.js";

/** Everything the rows of a take are drawn from. */
export interface TakePicture {
  readonly score: Score;
  readonly finding: Finding;
  readonly trace: readonly TracePoint[];
  /** When each onset was played, seconds from bar 1. */
  readonly played: readonly number[];
}

/** How times and asynchronies become pixels in one row. */
export interface Place {
  readonly x: (at: number) => number;
  readonly top: number;
  readonly y: ScaleLinear<number, number>;
}
