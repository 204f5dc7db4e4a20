import { add, type Fraction, fraction, multiply, ONE, ZERO } from "../../base/index.js";
import { problem } from "../codes.js";
import type { Loudness } from "../model.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import type { Tuplet } from "../tuplets.js";
import { tupletLengthProblem, tupletSum, type Word } from "./lineWords.js";
import type { SimpleWord, SoundWord } from "./token.js";

/** What holds from word to word of a line, across bar lines: set by `placedWords`. */
export interface Line {
  /** The length in force; absent before the first one. */
  length?: Fraction;
  /** Whether the length in force was written and not read. */
  lengthLost: boolean;
  loudness?: Loudness;
}

/** A line before its first word. */
export function lineFrom(): Line {
  return { lengthLost: false };
}

/** A note, a rest or a tie at its place, in whole notes. Without a length it is a rest that fills its bar. */
export type Placed = {
  readonly position: Fraction;
  readonly length?: Fraction;
  readonly offset: number;
  /** From where to where its tuplet is written; absent outside tuplets. */
  readonly tuplet?: Tuplet;
} & (
  | { readonly kind: "rest" }
  | { readonly kind: "tie" }
  | { readonly kind: "sound"; readonly sound: SoundWord; readonly loudness?: Loudness }
);

/**
 * Places the words of a bar one after the other, from the beginning of the bar, and carries the length and the loudness in force on.
 *
 * `unknown`: lengths are missing or were not read, so that the bar cannot be judged. Problems: NOTE_LENGTH_MISSING, once, TUPLET_NOT_FILLED.
 */
export function placedWords(
  words: readonly Word[],
  line: Line,
): { readonly events: readonly Placed[]; readonly problems: readonly Problem[]; readonly unknown: boolean } {
  const events: Placed[] = [];
  const problems: Problem[] = [];
  let position: Fraction = ZERO;
  let unknown = false;
  const fillsBar = isBarRest(words);
  const place = (word: SimpleWord, stretched: Fraction): void => {
    if (word.kind === "length") {
      if (word.length === undefined) delete line.length;
      else line.length = word.length;
      line.lengthLost = word.length === undefined;
      return;
    }
    if (word.kind === "loudness") {
      line.loudness = word.loudness;
      return;
    }
    if (word.kind === "rest" && fillsBar) {
      events.push({ kind: "rest", position, offset: word.offset });
      return;
    }
    if (line.length === undefined) {
      if (!unknown && !line.lengthLost) problems.push(lengthMissing(word));
      line.lengthLost = true;
      unknown = true;
      return;
    }
    const length = multiply(line.length, stretched);
    const placed = { position, length, offset: word.offset };
    if (word.kind !== "sound") events.push({ kind: word.kind, ...placed });
    else {
      const loudness = line.loudness === undefined ? {} : { loudness: line.loudness };
      events.push({ kind: "sound", sound: word, ...placed, ...loudness });
    }
    position = add(position, length);
  };
  for (const word of words) {
    if (word.kind !== "tuplet") {
      place(word, ONE);
      continue;
    }
    const { length: before, lengthLost } = line;
    const sum = tupletSum(word.words, before);
    const unfilled = sum === undefined ? undefined : tupletLengthProblem(word, sum);
    if (unfilled) problems.push(unfilled);
    const [first, from] = [events.length, position];
    for (const note of word.words) place(note, fraction(word.inTimeOf, word.count));
    const tuplet = { from, to: position };
    for (let i = first; i < events.length; i++) events[i] = { ...events[i]!, tuplet };
    // The length before a tuplet holds again after it.
    if (before === undefined) delete line.length;
    else line.length = before;
    line.lengthLost = lengthLost;
  }
  return { events, problems, unknown };
}

/** Whether the only thing in a bar is a rest without a length of its own. */
function isBarRest(words: readonly Word[]): boolean {
  const [rest, ...more] = words.filter((word) => word.kind !== "loudness");
  return rest?.kind === "rest" && more.length === 0;
}

function lengthMissing(word: SimpleWord): Problem {
  const message = say("pattern-problem.note-length-missing");
  const remedy = say("pattern-problem.note-length-missing-remedy");
  return problem("NOTE_LENGTH_MISSING", message, { pointer: "", offset: word.offset }, remedy);
}
