import { equals, type Fraction } from "../../base/index.js";
import { barLength } from "../../time/index.js";
import { cellsOf } from "../barLines.js";
import type { Frame } from "../compile/bars.js";
import { lengthWord } from "../note/lineWords.js";
import { type FormerBars, formerBars } from "./bars.js";
import { fillsPickup, pitchesText } from "./notes.js";
import { type FormerNote, type FormerWord, formerWords } from "./words.js";

/** The lines of a pattern: notes, a percussion voice, chord symbols. */
export type LineKind = "notes" | "grid" | "chords";

/**
 * A line of the former spelling in the present one; `undefined` when a word of it was none. Blanks and line ends stay as written.
 *
 * `%` becomes `same`, or the bar written out where a tie leads into only one of the two; several `%` that fill a line after its first bar become `...`.
 * @example rewriteLine("notes", "D4/4^ r/4 F4/2~ | F4/1", frame) // "1/4 D4! - 1/2 F4 | 1/1 tie"
 */
export function rewriteLine(kind: LineKind, line: string, frame: Frame): string | undefined {
  const bars = formerBars(line, frame, (text) => kind === "notes" && fillsPickup(text, frame));
  const texts =
    kind === "notes" ? noteTexts(bars, frame) : bars.pieces.map(({ text }) => (text === "%" ? "same" : text));
  if (!texts) return undefined;
  const { pieces } = bars;
  const repeatsFirst =
    bars.firstBar === 1 && texts.length > 2 && texts.length === frame.bars.length && texts.slice(1).every(isSame);
  const kept = repeatsFirst ? 2 : texts.length;
  let written = "";
  let end = 0;
  pieces.slice(0, kept).forEach(({ text, offset }, i) => {
    const before = line.slice(end, offset);
    written += i === 0 && frame.pickup.n > 0 && bars.firstBar === 1 ? withRest(before, bars.opens) : before;
    written += repeatsFirst && i === 1 ? "..." : texts[i];
    end = offset + text.length;
  });
  const last = pieces.at(-1)!;
  return written + (repeatsFirst ? line.slice(last.offset + last.text.length).replace(/^\s*\|/, "") : line.slice(end));
}

/** Whether a rewritten line of a voice or of chords has the text of the former one in every bar. */
export function keepsBars(former: string, rewritten: string, frame: Frame): boolean {
  const { pieces, firstBar } = formerBars(former, frame, () => false);
  let repeated = "";
  const texts = pieces.map(({ text }) => {
    repeated = text === "%" ? repeated : text;
    return repeated;
  });
  const { cells, problems } = cellsOf(rewritten, frame, () => false);
  const bars = cells.filter(({ bar, text }) => bar >= firstBar || text !== "rest");
  return problems.length === 0 && JSON.stringify(bars.map(({ text }) => text)) === JSON.stringify(texts);
}

function isSame(text: string): boolean {
  return text === "same";
}

/** What stands before the first bar, with the pick-up that the former line left out. */
function withRest(before: string, opens: boolean): string {
  return opens ? before.replace("|", "rest |") : `${before}rest | `;
}

/** What the words of a line hold from one to the next. */
interface Writer {
  length?: Fraction;
  /** The note that the next one is tied to. */
  tied?: FormerNote;
}

/** The bars of a line of notes in the present spelling. */
function noteTexts({ pieces, firstBar }: FormerBars, frame: Frame): readonly string[] | undefined {
  const writer: Writer = {};
  const texts: string[] = [];
  let source = "";
  /** Whether the bar before, as the rewritten line has it, begins with a note that is tied to. */
  let beginsTied = false;
  for (const [i, piece] of pieces.entries()) {
    const bar = frame.bars[Math.max(0, firstBar + i - 1)];
    const isSimile = piece.text === "%" && firstBar + i > 1;
    const text = isSimile ? source : piece.text;
    source = text;
    const words = text === "" || !bar ? undefined : formerWords(text);
    if (!words || words.length === 0) return undefined;
    const intoThis = writer.tied !== undefined;
    if (isSimile && intoThis === beginsTied) {
      const after = lastNote(words);
      if (after.tied) writer.tied = after;
      else delete writer.tied;
      texts.push("same");
      continue;
    }
    beginsTied = intoThis;
    const written = barText(words, { text, writer, whole: firstBar + i === 0 ? frame.pickup : barLength(bar!.meter) });
    if (written === undefined) return undefined;
    texts.push(written);
  }
  return texts;
}

function lastNote(words: readonly FormerWord[]): FormerNote {
  const last = words.at(-1)!;
  return last.kind === "note" ? last : last.notes.at(-1)!;
}

/** The words of a bar in the present spelling; `undefined` when a tie joins different pitches. `whole` is the length of the bar. */
function barText(
  words: readonly FormerWord[],
  { text, writer, whole }: { text: string; writer: Writer; whole: Fraction },
): string | undefined {
  const [only, ...more] = words;
  // A rest alone in its bar is the whole bar in the present spelling.
  if (only!.kind === "note" && only!.name === "" && more.length === 0) {
    if (writer.tied) return undefined;
    if (only!.length === undefined || equals(only!.length, whole)) return "rest";
    writer.length = only!.length;
    return `${lengthWord(only!.length)} -`;
  }
  let written = "";
  let end = 0;
  const write = (note: FormerNote, isFirst: boolean): boolean => {
    written += text.slice(end, note.from);
    end = note.to;
    if (isFirst || writer.length === undefined || !equals(writer.length, note.length!)) {
      written += `${lengthWord(note.length!)} `;
    }
    writer.length = note.length!;
    const { tied } = writer;
    delete writer.tied;
    if (tied && pitchesText(tied) !== pitchesText(note)) return false;
    written += tied ? "tie" : `${note.name === "" ? "-" : note.name}${note.accent ? "!" : ""}`;
    if (note.tied) writer.tied = note;
    return true;
  };
  for (const word of words) {
    if (word.kind === "note") {
      if (!write(word, false)) return undefined;
      continue;
    }
    const before = writer.length;
    written += `${text.slice(end, word.from)}${word.count} in ${word.inTimeOf} [`;
    end = text.indexOf("[", word.from) + 1;
    for (const [i, note] of word.notes.entries()) if (!write(note, i === 0)) return undefined;
    written += text.slice(end, word.to);
    end = word.to;
    if (before === undefined) delete writer.length;
    else writer.length = before;
  }
  return written;
}
