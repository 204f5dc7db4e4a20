import type { Named } from "./fifths.js";
import { noteOf } from "./randomRiffs.js";

type Root = Pick<Named, "letter" | "alter">;

/** A chord symbol with its root and its bass moved: letters and signs at the beginning and after a slash that a letter follows. */
export function chordMoved(text: string, move: (root: Root) => Root): string {
  if (text === "N.C.") return text;
  return text.replace(/(^|\/)([A-G][b#]*)/g, (_, before: string, root: string) => {
    const { letter, alter } = move(noteOf(root));
    return before + letter + (alter < 0 ? "b" : "#").repeat(Math.abs(alter));
  });
}

/** As print has it: flats and sharps of roots, of basses and before numbers as signs. */
export function inSigns(text: string): string {
  const sign = (signs: string): string => signs.replaceAll("b", "♭").replaceAll("#", "♯");
  return text
    .replace(
      /(^|\/)([A-G])([b#]+)/g,
      (_, before: string, letter: string, signs: string) => before + letter + sign(signs),
    )
    .replace(/[b#](?=\d)/g, sign);
}
