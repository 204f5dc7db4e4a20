import { caseless, webName } from "../render/sound/index.js";
import { fingerprint } from "./fingerprint.js";

/** Names that stay unchanged: every file system accepts them and distinguishes them, with or without case, and no program reads them as an option. */
const PLAIN = /^[a-z0-9]+(?:[ _.#-]+[a-z0-9]+)*$/;
/** Device names of Windows, with any ending (Microsoft, "Naming Files, Paths, and Namespaces", from memory). */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:[ .]|$)/;
/** Most letters kept of a name: our choice; with four bytes each and the rest of the name, less than the 255 bytes of file systems. */
const KEPT = 40;

/**
 * Names of picture files of takes, without their ending: a function of the take's name and the picture.
 *
 * A plain name stays unchanged. Any other name becomes its plain letters and a fingerprint of the whole name, after a sign that plain names do
 * not contain. So different names give different file names, and one name always gives the same. A second picture of a name gets its own
 * fingerprint.
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

/** Most bytes kept of a name of a known set; the rest of a file name is longer. */
const KEPT_BYTES = 50;

/**
 * Parts of file names for a known set of names, such as the drills of a course, as a web server and a person like them: small letters, digits
 * and hyphens. They hold no underscore, so that one can stand between a name and what follows it.
 *
 * A fingerprint of the whole name follows, after an underscore, when another name has the same letters, when they are in `taken`, or when they
 * are many. Different names give different file names, also on file systems that ignore case.
 */
export function fileNamesOf(
  names: Iterable<string>,
  { taken = [] }: { readonly taken?: readonly string[] } = {},
): (name: string) => string {
  const owners = new Map<string, Set<string>>();
  for (const name of names) {
    const own = caseless(whole(name));
    owners.set(own, (owners.get(own) ?? new Set()).add(name));
  }
  const reserved = new Set(taken.map((name) => caseless(whole(name))));
  return (name) => {
    const own = caseless(whole(name));
    const isOnly = (owners.get(own)?.size ?? 0) <= 1 && !reserved.has(own) && !DEVICE.test(own);
    const kept = webName(name, KEPT_BYTES);
    return isOnly && own !== "" && kept === whole(name) ? kept : `${kept || "name"}_${fingerprint([name])}`;
  };
}

/** A name however long. */
function whole(name: string): string {
  return webName(name, Number.POSITIVE_INFINITY);
}

/** Letters and digits of a name, and a fingerprint. */
function marked(name: string, of: readonly string[]): string {
  const shown = name.normalize("NFC").replace(/[^\p{L}\p{N} _]+/gu, "-");
  const kept = [...shown.replace(/^[-\s]+/, "")].slice(0, KEPT).join("");
  return `${kept.replace(/[-\s]+$/, "") || "take"}+${fingerprint(of)}`;
}
