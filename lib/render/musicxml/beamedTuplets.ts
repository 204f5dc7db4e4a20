import type { Beam } from "./beams.js";
import type { NoteSymbol } from "./noteSymbols.js";
import type { Tuplet } from "./tuplets.js";

/**
 * The tuplets of a voice in a bar that need no bracket, because one beam covers all of their notes and no other note. Common practice, no
 * source.
 */
export function beamedTuplets(
  symbols: readonly NoteSymbol<unknown>[],
  beams: readonly (readonly Beam[])[],
): ReadonlySet<Tuplet> {
  let begun = 0;
  const beamOf = beams.map(([first]) => {
    if (first === "begin") begun += 1;
    return first === undefined ? undefined : begun;
  });
  const isAlone = (tuplet: Tuplet): boolean => {
    const [own] = beamOf.filter((_, i) => symbols[i]!.tuplet === tuplet);
    return own !== undefined && symbols.every((each, i) => (each.tuplet === tuplet) === (beamOf[i] === own));
  };
  return new Set(symbols.flatMap(({ tuplet }) => (tuplet !== undefined && isAlone(tuplet) ? [tuplet] : [])));
}
