import { knownInstrumentNamed } from "../pattern/index.js";

/** Programs of words that name a part and no one instrument: the plucked bass and the alto saxophone, our choices. */
const OF_WORDS: ReadonlyMap<string, number> = new Map([
  ["bass", 33],
  ["saxophone", 66],
  ["sax", 66],
]);

/** The program of an unknown instrument, a piano: our choice, because a piano sounds at every pitch. */
const NEUTRAL = 1;

/**
 * The General MIDI program (1 to 128) of a part, found by its instrument, else by its name. An instrument that a course defines is found by the
 * last words of its name ("quay horn" has the program of a horn). 1, a piano, when nothing is found.
 *
 * @example programOf({ name: "bass", instrument: "double bass" }) // 33
 */
export function programOf(part: { readonly name: string; readonly instrument?: string | undefined }): number {
  return byLastWords(part.instrument) ?? byLastWords(part.name) ?? NEUTRAL;
}

function byLastWords(name: string | undefined): number | undefined {
  const words = (name ?? "").toLowerCase().split(/[^\p{L}'#-]+/u);
  for (let from = 0; from < words.length; from++) {
    const last = words.slice(from).join(" ");
    const program = knownInstrumentNamed(last)?.program ?? OF_WORDS.get(last);
    if (program !== undefined) return program;
  }
  return undefined;
}
