import { add, divide, type Fraction, fraction, type Worded, ZERO } from "../../base/index.js";
import { problem } from "../codes.js";
import { pitchText } from "../pitch.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { MIDDLE, type OctaveAt, octavesIn, readToken, SIGNS, type SimpleWord } from "./token.js";

/** A word of a line of notes. `offset` is its index in the line. */
export type Word = SimpleWord | TupletWord;

/** `count` notes in the time of `inTimeOf`. */
interface TupletWord {
  readonly kind: "tuplet";
  readonly count: number;
  readonly inTimeOf: number;
  readonly words: readonly SimpleWord[];
  readonly offset: number;
}

/** The text of words as a line writes them: "1/8 D4! - 3 in 2 [1/8 F4 G4 A4]". */
export function wordsText(words: readonly Word[]): string {
  return words.map(wordText).join(" ");
}

/** A length as a line writes it: "3/8", "1/1". */
export function lengthWord(length: Fraction): string {
  return `${length.n}/${length.d}`;
}

/** Most notes of a tuplet. Our choice: a tuplet of more notes cannot be judged by ear. */
const MOST_IN_TUPLET = 16;

/** Most problems reported of one bar. Our choice: later ones mostly follow from the first. */
const MOST_PROBLEMS = 20;

interface Token {
  readonly text: string;
  readonly offset: number;
}

/**
 * Reads the words of one bar, with their problems. `offset` is the index of the bar's text in its line; `octaveAt` says what a note without an octave is
 * answered with.
 *
 * Problems: those of `readToken`, TUPLET_NOT_READ, TUPLET_NOT_FILLED when its lengths are written inside it.
 */
export function readWords(
  text: string,
  offset: number,
  octaveAt: OctaveAt = octavesIn("", MIDDLE),
): { readonly words: readonly Word[]; readonly problems: readonly Problem[] } {
  const tokens = [...text.matchAll(/[[\]]|[^\s[\]]+/g)].map((match) => ({
    text: match[0],
    offset: offset + match.index,
  }));
  const words: Word[] = [];
  const problems: Problem[] = [];
  let open: { count: number; inTimeOf: number; words: SimpleWord[]; offset: number } | undefined;
  for (let i = 0; i < tokens.length && problems.length < MOST_PROBLEMS; i++) {
    const token = tokens[i]!;
    const head = tupletHead(tokens, i);
    if (head) {
      if (open) problems.push(tupletProblem(say("pattern-problem.tuplet-not-read-inside"), token.offset));
      else if (!head.good)
        problems.push(
          tupletProblem(
            say("pattern-problem.tuplet-not-read-numbers", { found: head.text, most: MOST_IN_TUPLET }),
            token.offset,
          ),
        );
      const { count, inTimeOf, good } = head;
      open = { count: good ? count : 0, inTimeOf: good ? inTimeOf : 0, words: [], offset: token.offset };
      i += head.tokens - 1;
    } else if (token.text === "[") {
      problems.push(tupletProblem(say("pattern-problem.tuplet-not-read-without-numbers"), token.offset));
      open ??= { count: 0, inTimeOf: 0, words: [], offset: token.offset };
    } else if (token.text === "]") {
      if (!open) problems.push(tupletProblem(say("pattern-problem.tuplet-not-read-closed-twice"), token.offset));
      else if (open.count > 0) words.push({ kind: "tuplet", ...open });
      open = undefined;
    } else {
      const read = readToken(token.text, token.offset, octaveAt);
      if ("word" in read) (open?.words ?? words).push(read.word);
      else problems.push(...read.problems);
      if ("problems" in read && /^\d+[./]/.test(token.text))
        (open?.words ?? words).push({ kind: "length", offset: token.offset });
    }
  }
  if (open) problems.push(tupletProblem(say("pattern-problem.tuplet-not-read-not-closed"), open.offset));
  return { words, problems: problems.slice(0, MOST_PROBLEMS) };
}

/** TUPLET_NOT_FILLED for a tuplet whose notes together are no such number of equal notes. `sum` is their written length. */
export function tupletLengthProblem(tuplet: TupletWord, sum: Fraction): Problem | undefined {
  const unit = divide(sum, fraction(tuplet.count));
  if (unit.n === 1 && Number.isInteger(Math.log2(unit.d))) return undefined;
  const { count, inTimeOf, offset } = tuplet;
  const message = say("pattern-problem.tuplet-not-filled", { count, inTimeOf, length: lengthWord(sum) });
  const example = `${count} in ${inTimeOf} [1/8${" D4".repeat(count)}]`;
  const remedy = say("pattern-problem.tuplet-not-filled-remedy", { count, example });
  return problem("TUPLET_NOT_FILLED", message, { pointer: "", offset }, remedy);
}

/** The sum of the lengths of a tuplet's notes as written, from the length in force before it; `undefined` without one. */
export function tupletSum(words: readonly SimpleWord[], before: Fraction | undefined): Fraction | undefined {
  let length = before;
  let sum: Fraction = ZERO;
  for (const word of words) {
    if (word.kind === "length") length = word.length;
    else if (word.kind === "loudness") continue;
    else if (length === undefined) return undefined;
    else sum = add(sum, length);
  }
  return sum;
}

interface TupletHead {
  readonly count: number;
  readonly inTimeOf: number;
  readonly good: boolean;
  readonly text: string;
  /** How many tokens it takes, with the bracket. */
  readonly tokens: number;
}

/** `3 in 2 [` at a token. */
function tupletHead(tokens: readonly Token[], at: number): TupletHead | undefined {
  const [count, word, inTimeOf, bracket] = tokens.slice(at, at + 4).map((token) => token.text);
  if (!/^\d{1,4}$/.test(count ?? "") || word !== "in" || !/^\d{1,4}$/.test(inTimeOf ?? "") || bracket !== "[") {
    return undefined;
  }
  const [notes, time] = [Number(count), Number(inTimeOf)];
  const good = notes >= 2 && time >= 1 && notes <= MOST_IN_TUPLET && time <= MOST_IN_TUPLET && notes !== time;
  return { count: notes, inTimeOf: time, good, text: `${count} in ${inTimeOf}`, tokens: 4 };
}

function wordText(word: Word): string {
  switch (word.kind) {
    case "length":
      return lengthWord(word.length ?? ZERO);
    case "rest":
      return "-";
    case "tie":
      return "tie";
    case "loudness":
      return word.loudness;
    case "tuplet":
      return `${word.count} in ${word.inTimeOf} [${wordsText(word.words)}]`;
    case "sound": {
      const pitches = word.pitches.map(pitchText).join("+");
      const has = { ...word.marks, accent: word.accent };
      const signs = (Object.keys(SIGNS) as (keyof typeof SIGNS)[]).map((sign) => (has[sign] ? SIGNS[sign] : ""));
      return `${word.marks.ghost ? `(${pitches})` : pitches}${signs.join("")}`;
    }
  }
}

function tupletProblem(message: Worded, offset: number): Problem {
  const remedy = say("pattern-problem.tuplet-not-read-remedy");
  return problem("TUPLET_NOT_READ", message, { pointer: "", offset }, remedy);
}
