import { fingerprint } from "./fingerprint.js";

/** Names that stay as they are: what every file system takes, tells apart whether or not it heeds case, and no program takes for an option. */
const PLAIN = /^[a-z0-9]+(?:[ _.#-]+[a-z0-9]+)*$/;
/** Devices of Windows, with whatever ending (Microsoft, "Naming Files, Paths, and Namespaces", from memory). */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:[ .]|$)/;
/** Letters of a name that stay: our choice; in four bytes each, and with what follows, less than the 255 that file systems take. */
const KEPT = 40;

/**
 * Gives names of files for pictures of takes, without their ending: a function of the take's name and the picture.
 *
 * A plain name stays. Another one is told by what can stay of it and a fingerprint of all of it, behind a sign no plain name has: so names
 * that differ give names that differ, and one name always the same. A further picture under a name is told by its own fingerprint.
 */
export function pictureNames(): (take: string, picture: string) => string {
  const given = new Map<string, string>();
  return (take, picture) => {
    const name = isPlain(take) ? take : marked(take, [take]);
    const shown = fingerprint([picture]);
    const isOther = (given.get(name) ?? shown) !== shown;
    if (!isOther) given.set(name, shown);
    return isOther ? marked(take, [take, picture]) : name;
  };
}

function isPlain(take: string): boolean {
  return take.length <= KEPT && PLAIN.test(take) && !DEVICE.test(take);
}

/**
 * File names, without their ending, for things whose names are all known, such as the drills of a course.
 *
 * A name stays as its letters, digits and blanks. Where these are also those of another name, or are one of `taken`, or where a number
 * behind another name could be meant, a fingerprint of the whole name follows: names that differ give file names that differ, also on
 * file systems that do not heed case.
 */
export function fileNamesOf(
  names: Iterable<string>,
  { taken = [] }: { readonly taken?: readonly string[] } = {},
): (name: string) => string {
  const owners = new Map<string, Set<string>>();
  for (const name of names) owners.set(folded(name), (owners.get(folded(name)) ?? new Set()).add(name));
  const reserved = new Set(taken.map(folded));
  return (name) => {
    const own = folded(name);
    const numbered = /^(.+) \d+$/.exec(own)?.[1];
    const isOnly = (owners.get(own)?.size ?? 0) <= 1 && !reserved.has(own) && !DEVICE.test(own);
    return isOnly && own !== "" && (numbered === undefined || !owners.has(numbered))
      ? letters(name)
      : marked(name, [name]);
  };
}

/** What all names have in common that a file system may take for one. */
function folded(name: string): string {
  return letters(name).normalize("NFKC").toUpperCase().normalize("NFKC").toLowerCase();
}

/** Letters, digits and blanks of a name; all else becomes a hyphen. No blank is left at the end, which Windows would drop. */
function letters(name: string): string {
  return name
    .normalize("NFC")
    .replace(/[^\p{L}\p{N} ]+/gu, "-")
    .trimEnd();
}

/** Letters and digits of a name, and a fingerprint. */
function marked(name: string, of: readonly string[]): string {
  const shown = name.normalize("NFC").replace(/[^\p{L}\p{N} _]+/gu, "-");
  const kept = [...shown.replace(/^[-\s]+/, "")].slice(0, KEPT).join("");
  return `${kept.replace(/[-\s]+$/, "") || "take"}+${fingerprint(of)}`;
}
