import { nearestName, type Worded } from "../../base/index.js";
import { problem } from "../codes.js";
import type { Instrument } from "../model.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { KNOWN_INSTRUMENTS, type KnownInstrument, NAMES, plainName } from "./known.js";
import { INSTRUMENT_TABLE } from "./table.js";

/**
 * The instrument of a name: the curriculum's own first, then the built-in one, by its name or another name of it ("alto sax"); `undefined` when
 * there is none.
 *
 * @example
 * instrumentNamed("trumpet", course.instruments).name // "trumpet"
 */
export function instrumentNamed(name: string, own: Readonly<Record<string, Instrument>>): Instrument | undefined {
  if (Object.hasOwn(own, name)) return own[name];
  return knownInstrumentNamed(name)?.instrument;
}

/**
 * All that the table says of an instrument, by its name or another name of it; `undefined` when the table does not have it.
 *
 * @example
 * knownInstrumentNamed("cor anglais").program // 70
 */
export function knownInstrumentNamed(name: string): KnownInstrument | undefined {
  const plain = plainName(name);
  const known = NAMES.get(plain) ?? NAMES.get(plain.replace(/s$/, ""));
  return known === undefined ? undefined : KNOWN_INSTRUMENTS[known];
}

/** The problem INSTRUMENT_UNKNOWN, with the nearest name. */
export function unknownInstrument(
  name: string,
  own: Readonly<Record<string, Instrument>>,
  pointer = "/instrument",
): Problem {
  const message = say("pattern-problem.instrument-unknown", { found: JSON.stringify(name.slice(0, 80)) });
  const remedy = /^(drum ?s?|drum ?(kit|set)|kit|percussion)$/.test(plainName(name))
    ? say("pattern-problem.instrument-unknown-remedy-drums", { example: "voices: { kick: x---x---, snare: --x---x- }" })
    : remedyOf(meantBy(name, Object.keys(own)));
  return problem("INSTRUMENT_UNKNOWN", message, { pointer }, remedy);
}

/** Most instruments offered for one word. Our choice: as many as there are of one size (alto). */
const MOST_MEANT = 9;

/**
 * The instruments a name may stand for: those that are some kind of it ("bass" is a double bass, and no bass clarinet), else those with the word in
 * one of their names ("upright"), else the nearest one. `own` are names of the course's instruments.
 */
function meantBy(name: string, own: readonly string[]): readonly string[] {
  const word = plainName(name);
  const named = [...own.map((each) => ({ name: each, words: wordsOf(each) })), ...INSTRUMENT_WORDS];
  for (const isMeant of word.length < 3 ? [] : WAYS_TO_MEAN) {
    const meant = new Set(named.flatMap((each) => (isMeant(each, word) ? [each.name] : [])));
    if (meant.size > 0) return [...meant].slice(0, MOST_MEANT);
  }
  const written = word.split(" ");
  const ofOwn = new Map(own.map((each) => [plainName(each), each]));
  const near = nearestName(
    word,
    [...ofOwn.keys(), ...NAMES.keys()].filter((each) => isMisspelt(written, each.split(" "))),
  );
  return near === undefined ? [] : [ofOwn.get(near) ?? NAMES.get(near)!];
}

interface NamedInstrument {
  readonly name: string;
  /** The words of its name, and those of its other names. */
  readonly words: readonly string[];
  readonly otherWords?: readonly string[];
}

/** How one word may mean an instrument, the surest first. */
const WAYS_TO_MEAN: readonly ((named: NamedInstrument, word: string) => boolean)[] = [
  ({ words }, word) => words.at(-1) === word,
  ({ words, otherWords = [] }, word) => words.includes(word) || otherWords.includes(word),
];

function wordsOf(name: string): readonly string[] {
  return plainName(name).split(" ");
}

/** The instruments of the table. */
const INSTRUMENT_WORDS: readonly NamedInstrument[] = Object.values(INSTRUMENT_TABLE)
  .flat()
  .map(([name, , , , , ...otherNames]) => ({ name, words: wordsOf(name), otherWords: otherNames.flatMap(wordsOf) }));

/** Sizes of instruments that the table does not have, and that look like another size (from memory). */
const OTHER_SIZES: readonly string[] = ["sopranissimo", "subcontrabass", "garklein"];

/** The words of all names: none of them is another one misspelt. */
const VOCABULARY: ReadonlySet<string> = new Set([
  ...OTHER_SIZES,
  ...[...NAMES.keys()].flatMap((name) => name.split(" ")),
]);

/**
 * Whether a text is this name with slips of spelling: word by word, or with the words written together. A word more or another word is another
 * instrument, with another transposition ("Db clarinet", "alto trumpet"), and no misspelling; so is a key of one or two letters.
 */
function isMisspelt(words: readonly string[], known: readonly string[]): boolean {
  if (words.length !== known.length) {
    const [joined, whole] = [words.join(""), known.join("")];
    return joined === whole || (words.length === 1 && nearestName(joined, [whole]) !== undefined);
  }
  return words.every(
    (word, i) =>
      word === known[i] || (word.length > 2 && !VOCABULARY.has(word) && nearestName(word, [known[i]!]) !== undefined),
  );
}

function remedyOf(meant: readonly string[]): Worded {
  const last = meant.at(-1);
  if (last === undefined) return say("pattern-problem.instrument-unknown-remedy");
  const others = meant.slice(0, -1);
  return others.length === 0
    ? say("pattern-problem.write", { text: last })
    : say("pattern-problem.write-or", { others, last });
}
