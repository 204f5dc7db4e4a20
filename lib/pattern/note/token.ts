import { add, type Fraction, fraction, multiply, type Worded } from "../../base/index.js";
import { problem } from "../codes.js";
import { type Marks, marksOf } from "../marks.js";
import type { Loudness, Pitch } from "../model.js";
import { midiNumber, parsePitch } from "../pitch.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";

/** A word of a line of notes outside brackets. `offset` is its index in the line. */
export type SimpleWord =
  | LengthWord
  | SoundWord
  | { readonly kind: "rest"; readonly offset: number }
  | { readonly kind: "tie"; readonly offset: number }
  | { readonly kind: "loudness"; readonly loudness: Loudness; readonly offset: number };

/** The length in force from here on, in whole notes; absent when what was written could not be read. */
interface LengthWord {
  readonly kind: "length";
  readonly length?: Fraction;
  readonly offset: number;
}

/** A note, or a chord of several pitches. */
export interface SoundWord {
  readonly kind: "sound";
  readonly pitches: readonly Pitch[];
  readonly accent: boolean;
  readonly marks: Marks;
  readonly offset: number;
}

/** The marks that follow a note, in the order in which they are written. A ghost note stands in parentheses instead. */
export const SIGNS = { accent: "!", short: ".", tenuto: "_", scoop: "-scoop", fall: "-fall", slurred: "~" } as const;

type Sign = keyof typeof SIGNS | "ghost";

/** Marks that no note has both. */
const APART: readonly (readonly [Sign, Sign])[] = [
  ["ghost", "accent"],
  ["short", "tenuto"],
  ["fall", "slurred"],
];

/** The octave that a note without one was most likely meant in, from its letter and its offset in the line. */
export type OctaveAt = (letter: string, offset: number) => number;

/** Between C4 and B4, so that the octave from middle C up is meant where nothing else is known. */
export const MIDDLE = 65.5;

/** Characters of a line that are searched for a neighbour. Our choice: some ten notes, so that a long line without octaves costs no more than a short one. */
const NEIGHBOURHOOD = 100;

/** The octaves of a line: that nearest to the note written before, else to the next one, else to `middle`, a MIDI number. */
export function octavesIn(line: string, middle: number): OctaveAt {
  const written = /[A-G][b#♭♯]{0,2}\d/gi;
  return (letter, offset) => {
    const before = line
      .slice(Math.max(0, offset - NEIGHBOURHOOD), offset)
      .match(written)
      ?.at(-1);
    const neighbour = before ?? line.slice(offset, offset + NEIGHBOURHOOD).match(written)?.[0];
    const pitch = neighbour === undefined ? undefined : parsePitch(neighbour);
    const around = pitch?.ok ? midiNumber(pitch.value) : middle;
    return Math.round((around - midiNumber({ letter: letter as Pitch["letter"], alter: 0, octave: 0 })) / 12) + 0;
  };
}

/**
 * Reads one token of a line of notes: a length, a note with its marks, a chord, silence, `tie`, or a loudness.
 *
 * Problems: NOTE_NOT_READ, NOTE_LENGTH_NOT_READ, those of `parsePitch`; each says what to write where that can be guessed.
 */
export function readToken(
  text: string,
  offset: number,
  octaveAt: OctaveAt,
): { readonly word: SimpleWord } | { readonly problems: readonly Problem[] } {
  if (text === "-" || text === "rest") return { word: { kind: "rest", offset } };
  if (text === "tie") return { word: { kind: "tie", offset } };
  if (isLoudness(text)) return { word: { kind: "loudness", loudness: text, offset } };
  if (/^\d+[./]/.test(text)) return readLength(text, offset);
  const note = /^(\(?)([^!._~()]+?)(\)?)((?:[!._~]|-scoop|-fall)*)$/.exec(text);
  const [, opens, pitches, closes, written = ""] = note ?? [];
  const signs: readonly string[] = written.match(/[!._~]|-[a-z]+/g) ?? [];
  const has = (sign: Sign): boolean => (sign === "ghost" ? opens === "(" : signs.includes(SIGNS[sign]));
  const unclear = !note || opens?.length !== closes?.length || new Set(signs).size < signs.length;
  if (unclear || !/^([A-Ha-h]([^a-ac-z]|$)|[A-Za-z][b#♭♯]{0,2}-?\d)/.test(pitches!))
    return { problems: [notRead(text, offset, octaveAt)] };
  const apart = APART.find(([one, other]) => has(one) && has(other));
  if (apart) return { problems: [marksApart(text, pitches!, { apart, offset })] };
  const problems: Problem[] = [];
  const read = readPitches(pitches!, { offset: offset + opens!.length, octaveAt, problems });
  if (problems.length > 0) return { problems };
  const marks = marksOf({
    short: has("short"),
    tenuto: has("tenuto"),
    slurred: has("slurred"),
    scoop: has("scoop"),
    fall: has("fall"),
    ghost: has("ghost"),
  });
  return { word: { kind: "sound", pitches: read, accent: has("accent"), marks, offset } };
}

/** NOTE_NOT_READ for a note with two marks of which it can have one. */
function marksApart(
  text: string,
  pitches: string,
  { apart: [one, other], offset }: { apart: readonly [Sign, Sign]; offset: number },
): Problem {
  const message = say("pattern-problem.note-not-read-marks-apart", { first: one as "ghost", found: shown(text) });
  const with_ = (sign: Sign): string => (sign === "ghost" ? `(${pitches})` : `${pitches}${SIGNS[sign]}`);
  const remedy = say("pattern-problem.note-not-read-remedy-one-mark", { first: with_(one), second: with_(other) });
  return problem("NOTE_NOT_READ", message, at(offset), remedy);
}

const LOUDNESSES: readonly Loudness[] = ["pp", "p", "mp", "mf", "f", "ff"];

/** Finest part of a whole note in a length. Our choice: a sixty-fourth with two dots is 7/256. */
const FINEST = 256;

function isLoudness(text: string): text is Loudness {
  return (LOUDNESSES as readonly string[]).includes(text);
}

function readLength(
  text: string,
  offset: number,
): { readonly word: SimpleWord } | { readonly problems: readonly Problem[] } {
  const terms = text.split("+").map((term) => /^(\d{1,4})\/(\d{1,4})$/.exec(term));
  const lengths = terms.map((term) => (term === null ? undefined : ([Number(term[1]), Number(term[2])] as const)));
  const good = lengths.every(
    (pair) => pair && pair[0] > 0 && pair[1] <= FINEST && Number.isInteger(Math.log2(pair[1])),
  );
  if (good) {
    const sum = lengths.map((pair) => fraction(pair![0], pair![1])).reduce((a, b) => add(a, b));
    return { word: { kind: "length", length: sum, offset } };
  }
  const message = say("pattern-problem.note-length-not-read", { found: shown(text) });
  return { problems: [problem("NOTE_LENGTH_NOT_READ", message, at(offset), lengthRemedy(text))] };
}

function lengthRemedy(text: string): Worded | undefined {
  const dotted = /^(\d{1,3})\/(\d{1,3})(\.{1,2})$/.exec(text);
  if (dotted && Number.isInteger(Math.log2(Number(dotted[2])))) {
    const length = multiply(fraction(Number(dotted[1]), Number(dotted[2])), dots(dotted[3]!.length));
    return write(`${length.n}/${length.d}`);
  }
  const joined = /^(\d+\/\d+)([^\d+/.].*)$/.exec(text);
  if (joined) return say("pattern-problem.note-length-not-read-remedy-apart", { text: `${joined[1]} ${joined[2]}` });
  if (/^\d+\/\d+/.test(text)) return say("pattern-problem.note-length-not-read-remedy-triplet");
  return undefined;
}

/** What dots make of a length: one adds a half, two add three quarters. */
export function dots(count: number): Fraction {
  return fraction(2 ** (count + 1) - 1, 2 ** count);
}

function readPitches(
  text: string,
  {
    offset,
    octaveAt,
    problems,
  }: { readonly offset: number; readonly octaveAt: OctaveAt; readonly problems: Problem[] },
): Pitch[] {
  const pitches: Pitch[] = [];
  let start = offset;
  for (const name of text.split("+")) {
    const pitch = parsePitch(name);
    if (pitch.ok) pitches.push(pitch.value);
    else {
      const remedy = pitchRemedy(name, (letter) => octaveAt(letter, start));
      const misread = pitch.problems[0]?.code === "PITCH_NOT_READ";
      problems.push(
        ...pitch.problems.map((each) => {
          const placed = { ...each, where: at(start) };
          if (remedy === undefined || !misread) return placed;
          return { ...placed, remedy: remedy.says, words: { ...each.words, remedy: remedy.message } };
        }),
      );
    }
    start += name.length + 1;
  }
  return pitches;
}

/** What a pitch that is not read may have been meant for. */
function pitchRemedy(name: string, octaveOf: (letter: string) => number): Worded | undefined {
  const [, letter = "", sign = "", octave = ""] = /^([A-Ha-h])([b#♭♯]{0,2})(-?\d?)$/.exec(name) ?? [];
  if (letter === "") {
    const notes = name.match(/[A-Ga-g][b#♭♯]{0,2}\d/g);
    if (notes && notes.length > 1 && notes.join("") === name)
      return say("pattern-problem.pitch-not-read-remedy-apart", { text: notes.join(" ") });
    const signLast = /^([A-Ga-g])(\d)([b#♭♯])$/.exec(name);
    if (signLast) return write(`${signLast[1]}${signLast[3]}${signLast[2]}`);
    const long = /^([A-Ga-g][b#♭♯]{0,2}\d)[a-z]$/.exec(name);
    if (long) return say("pattern-problem.pitch-not-read-remedy-length", { text: `1/4 ${long[1]}` });
    const plain = /^([A-Ga-g][b#♭♯]{0,2}\d)[,;:^>'"]+$/.exec(name);
    if (plain) return write(`${plain[1]}${/[\^>]/.test(name) ? "!" : ""}`);
    const [, note = "", said] = /^([A-Ga-g][b#♭♯]{0,2}\d)-*([a-z]*)$/i.exec(name) ?? [];
    if (said === undefined) return undefined;
    if (said === "") return say("pattern-problem.pitch-not-read-remedy-dash", { pitch: note });
    const meant = signMeant(said);
    return meant === undefined ? say("pattern-problem.note-not-read-remedy-marks") : write(`${note}${meant}`);
  }
  const english = letter.toUpperCase() === "H" ? "B" : letter.toUpperCase();
  return write(`${english}${sign}${octave === "" ? octaveOf(english) : octave}`);
}

function notRead(text: string, offset: number, octaveAt: OctaveAt): Problem {
  const message = say("pattern-problem.note-not-read", { found: shown(text) });
  return problem(
    "NOTE_NOT_READ",
    message,
    at(offset),
    remedyFor(text, (letter) => octaveAt(letter, offset)),
  );
}

function remedyFor(text: string, octaveOf: (letter: string) => number): Worded {
  const word = text.toLowerCase();
  if (/^(tie|rest|same)$/.test(word)) return write(word);
  if (/^(repeat|repeated|simile|sim\.?|ditto)$/.test(word)) return write("same");
  const meant = lengthMeant(word) ?? noteMeant(word, octaveOf);
  if (meant !== undefined) return write(meant);
  if (/^(ties|tied|hold)$/.test(word)) return say("pattern-problem.note-not-read-remedy-tie");
  if (/^(r|z|pause|silence|-+|–|—|\.+)$/.test(word)) return say("pattern-problem.note-not-read-remedy-silence");
  if (/^(p+|f+|sfz?|fp|mff|mpp)$/.test(word))
    return say("pattern-problem.note-not-read-remedy-loudness", { names: LOUDNESSES });
  if (/^(_+|~+)$/.test(word)) return say("pattern-problem.note-not-read-remedy-tie-or-mark");
  if (/^[!._~]+$|^(?:tie|rest|-+)[!._~-]/.test(text) || signMeant(word.replace(/^-/, "")) !== undefined)
    return say("pattern-problem.note-not-read-remedy-marks");
  if (/^[!.^>]+[A-Ga-g]/.test(text)) return write(`${text.replace(/^[!.^>]+/, "")}!`);
  if (/^\d+$/.test(text)) return say("pattern-problem.note-not-read-remedy-number", { number: text });
  if (text === "in") return say("pattern-problem.note-not-read-remedy-triplet");
  if (/^\(/.test(text) || text.endsWith(")")) return say("pattern-problem.note-not-read-remedy-ghost");
  return say("pattern-problem.write-for-instance", { example: "1/4 D4 - F4! 1/8 A4 G4" });
}

/** The mark that a word of the trade was meant for: "falloff" is -fall. */
function signMeant(word: string): string | undefined {
  if (/^(fall|drop)/.test(word)) return SIGNS.fall;
  if (/^(scoop|bend|smear)/.test(word)) return SIGNS.scoop;
  if (/^(slur|legato|leg$)/.test(word)) return SIGNS.slurred;
  if (/^(tenuto|ten$|held)/.test(word)) return SIGNS.tenuto;
  if (/^(stacc|short)/.test(word)) return SIGNS.short;
  return /^(accent|acc$)/.test(word) ? SIGNS.accent : undefined;
}

/** Names of note values, as a fraction of a whole note: the two families of English names, and their first letters. */
const VALUES: Readonly<Record<string, number>> = {
  whole: 1,
  semibreve: 1,
  half: 2,
  minim: 2,
  h: 2,
  quarter: 4,
  crotchet: 4,
  q: 4,
  eighth: 8,
  quaver: 8,
  sixteenth: 16,
  semiquaver: 16,
};

/** The length, or the length and a silence, that a note value in words was meant for: "crotchet" is 1/4, "dotted-quarter" 3/8. */
function lengthMeant(word: string): string | undefined {
  const [, dotted = "", name = "", rest] = /^(dotted-?)?([a-z]+?)s?(-?rest)?s?$/.exec(word) ?? [];
  const lower = Object.hasOwn(VALUES, name) ? VALUES[name] : undefined;
  if (lower === undefined) return undefined;
  const length = dotted === "" ? `1/${lower}` : `3/${2 * lower}`;
  return rest === undefined ? length : `${length} -`;
}

const SYLLABLES: Readonly<Record<string, string>> = {
  do: "C",
  ut: "C",
  re: "D",
  ré: "D",
  mi: "E",
  fa: "F",
  sol: "G",
  la: "A",
  si: "B",
  ti: "B",
};

/** The pitch that a syllable or a sign in words was meant for: "sib4" is Bb4, "Bflat4" too. */
function noteMeant(word: string, octaveOf: (letter: string) => number): string | undefined {
  const [, name = "", sign = "", octave] =
    /^(do|ut|r[eé]|mi|fa|sol|la|si|ti|[a-h])[ -]?(b|#|♭|♯|-?flat-?|-?sharp-?|s|is|es)?(\d)?$/.exec(word) ?? [];
  const letter = Object.hasOwn(SYLLABLES, name)
    ? SYLLABLES[name]
    : /^[a-g]$/.test(name)
      ? name.toUpperCase()
      : undefined;
  if (letter === undefined) return undefined;
  // In German "es" and "as" are flats; "fs" and "cs" are short for sharps.
  const isFlat = /flat|b|♭|es/.test(sign) || (sign === "s" && /^[ae]$/.test(name));
  return `${letter}${isFlat ? "b" : sign === "" ? "" : "#"}${octave ?? octaveOf(letter)}`;
}

function write(text: string): Worded {
  return say("pattern-problem.write", { text });
}

function at(offset: number): { readonly pointer: string; readonly offset: number } {
  return { pointer: "", offset };
}

function shown(text: string): string {
  return JSON.stringify(text.length > 30 ? `${text.slice(0, 30)}...` : text);
}
