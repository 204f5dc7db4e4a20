import { type Rung, scoreOf } from "../drill/index.js";
import type { Score } from "../schema/index.js";

/** Not a name a course can give a mix (names have no blanks around them). */
const WRITTEN = " written ";

/** The score of a rung as if every part played throughout: what is to be read, whatever a mix leaves out. Its student's part leaves open bars out. */
export function writtenScore(rung: Rung): Score {
  const parts = Object.fromEntries(rung.drill.pattern.parts.map(({ name }) => [name, "plays" as const]));
  const drill = { ...rung.drill, mixes: [...rung.drill.mixes, { name: WRITTEN, parts }] };
  return scoreOf({ ...rung, drill }, WRITTEN);
}
