import type { Measure } from "../schema/index.js";

/** A number to so many decimals, so that findings read well and compare as text; hundredths of a millisecond are far below any error. */
export function rounded(value: number, decimals = 2): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale + 0;
}

/** A measure with its number rounded; the reason why there is none stays. */
export function roundedMeasure(measure: Measure, decimals = 2): Measure {
  return typeof measure === "number" ? rounded(measure, decimals) : measure;
}
