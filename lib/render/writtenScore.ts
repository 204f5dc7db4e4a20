import { type Rung, scoreOf } from "../drill/index.js";
import type { Score } from "../schema/index.js";

/** A mix name that no course can have: names of mixes do not begin or end with a blank. */
const WRITTEN = " written ";

/**
 * The score of a rung with every part playing throughout, whatever the mixes leave out: the notes to be written. The student's part has no notes in open bars.
 *
 * @example
 * writtenScore(rung).parts.every(({ does }) => does === "plays") // true
 */
export function writtenScore(rung: Rung): Score {
  const parts = Object.fromEntries(rung.drill.pattern.parts.map(({ name }) => [name, "plays" as const]));
  const drill = { ...rung.drill, mixes: [...rung.drill.mixes, { name: WRITTEN, parts }] };
  return scoreOf({ ...rung, drill }, WRITTEN);
}
