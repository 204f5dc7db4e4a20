import type { StaffState } from "./attributes.js";
import type { MusicXmlNote } from "./musicXmlFile.js";
import { childrenOf, type Element } from "./readXml.js";

/** What signs say about how a note is played. */
export type Articulation = Pick<MusicXmlNote, "accent" | "short" | "tenuto" | "scoop" | "fall" | "slurred">;

/** Elements of `articulations` (MusicXML 4.0) by what they say. */
const SIGNS = {
  accent: ["accent", "strong-accent"],
  short: ["staccato", "staccatissimo", "detached-legato"],
  tenuto: ["tenuto", "detached-legato"],
  scoop: ["scoop"],
  fall: ["falloff"],
} as const;

/** Reads the articulations of a `note` element, and the slurs that begin and end on it: `state` carries those that go on, also over bar lines. */
export function articulationOf(note: Element, voice: string, state: StaffState): Articulation {
  const notations = childrenOf(note, "notations");
  const names = new Set(
    notations.flatMap((each) =>
      childrenOf(each, "articulations").flatMap(({ children }) => children.map((c) => c.name)),
    ),
  );
  const slurs = notations.flatMap((each) => childrenOf(each, "slur").map(({ attributes }) => attributes));
  // One slur may end on the note on which another begins, in either order in the file.
  for (const { type, number = "1" } of slurs) if (type === "stop") endSlur(state.slurs, number, voice);
  for (const { type, number = "1" } of slurs) if (type === "start") state.slurs.add(`${number} ${voice}`);
  const isSlurred = [...state.slurs].some((slur) => slur.endsWith(` ${voice}`));
  return articulation((sign) => (sign === "slurred" ? isSlurred : SIGNS[sign].some((name) => names.has(name))));
}

/** What the notes of a chord say, said of the chord. A slur goes on when it does after the last of them. */
export function sharedBy(chord: readonly Articulation[]): Articulation {
  return articulation((sign) =>
    sign === "slurred" ? chord.at(-1)!.slurred === true : chord.some((note) => note[sign]),
  );
}

function articulation(has: (sign: keyof Articulation) => boolean): Articulation {
  return {
    accent: has("accent"),
    ...(has("short") ? { short: true } : {}),
    ...(has("tenuto") ? { tenuto: true } : {}),
    ...(has("scoop") ? { scoop: true } : {}),
    ...(has("fall") ? { fall: true } : {}),
    ...(has("slurred") ? { slurred: true } : {}),
  };
}

/** A slur may end in another voice than it began in. */
function endSlur(slurs: Set<string>, number: string, voice: string): void {
  if (slurs.delete(`${number} ${voice}`)) return;
  const other = [...slurs].find((slur) => slur.startsWith(`${number} `));
  if (other !== undefined) slurs.delete(other);
}
