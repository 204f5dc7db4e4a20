import type { Drawn } from "./drawn.js";
import type { Tuplet } from "./tuplets.js";

/** The tuplets of a voice in a bar that a beam alone holds together, so that they need no bracket; `beamed` says which notes have one. */
export function beamedTuplets(drawn: readonly Drawn<unknown>[], beamed: readonly boolean[]): ReadonlySet<Tuplet> {
  const loose = new Set(drawn.filter((_, i) => !beamed[i]).map(({ tuplet }) => tuplet));
  return new Set(drawn.flatMap(({ tuplet }) => (tuplet === undefined || loose.has(tuplet) ? [] : [tuplet])));
}
