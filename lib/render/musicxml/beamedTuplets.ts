import type { Beam } from "./beams.js";
import type { Drawn } from "./drawn.js";
import type { Tuplet } from "./tuplets.js";

/**
 * The tuplets of a voice in a bar that a beam alone holds together, so that they need no bracket: one beam over all of their notes and nothing
 * else. Common practice, no source.
 */
export function beamedTuplets(
  drawn: readonly Drawn<unknown>[],
  beams: readonly (readonly Beam[])[],
): ReadonlySet<Tuplet> {
  let begun = 0;
  const beamOf = beams.map(([first]) => {
    if (first === "begin") begun += 1;
    return first === undefined ? undefined : begun;
  });
  const isAlone = (tuplet: Tuplet): boolean => {
    const [own] = beamOf.filter((_, i) => drawn[i]!.tuplet === tuplet);
    return own !== undefined && drawn.every((each, i) => (each.tuplet === tuplet) === (beamOf[i] === own));
  };
  return new Set(drawn.flatMap(({ tuplet }) => (tuplet !== undefined && isAlone(tuplet) ? [tuplet] : [])));
}
