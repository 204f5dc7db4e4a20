import type { DraftNote } from "./model.js";

/** How a draft is divided. */
export interface LineOptions {
  /** Places of the grid in a whole note. */
  readonly perWhole: number;
  /** Places of the grid in a bar. */
  readonly perBar: number;
  readonly bars: number;
}

/** Stands for a pitch where none was heard before it either. */
const MIDDLE = "C4";

/**
 * A draft as a note line: bars divided by `|`, rests where nothing sounds, `tie` over a bar line, a length as few note values as it takes. A note without a pitch has that of the note
 * before it.
 */
export function draftLine(notes: readonly DraftNote[], { perWhole, perBar, bars }: LineOptions): string {
  let value = "";
  let pitch = notes.find(({ pitches }) => pitches.length > 0)?.pitches.join("+") ?? MIDDLE;
  const written: string[] = [];
  for (let bar = 0; bar < bars; bar++) {
    const [from, to] = [bar * perBar, (bar + 1) * perBar];
    const words: string[] = [];
    const put = (length: number, word: string): void => {
      const own = valueText(length, perWhole);
      words.push(...(own === value ? [] : [own]), word);
      value = own;
    };
    let at = from;
    for (const { place, length, pitches } of notes) {
      const [begins, ends] = [Math.max(place, from), Math.min(place + length, to)];
      if (ends <= begins) continue;
      if (begins > at) put(begins - at, "-");
      if (place >= from && pitches.length > 0) pitch = pitches.join("+");
      put(ends - begins, place < from ? "tie" : pitch);
      at = ends;
    }
    // A bar in which nothing sounds needs no length.
    if (words.length === 0) words.push("-");
    else if (at < to) put(to - at, "-");
    written.push(words.join(" "));
  }
  return written.join(" | ");
}

/** A length as note values, the longest first: "1/8", "3/8", "1/4+1/16". */
export function valueText(length: number, perWhole: number): string {
  const common = divisor(length, perWhole);
  const [n, d] = [length / common, perWhole / common];
  if (n === 1 || n === 3 || n === 7 || d === 1) return `${n}/${d}`;
  const values: string[] = [];
  let left = length;
  for (let value = perWhole; value >= 1; value /= 2)
    while (left >= value) {
      values.push(`1/${perWhole / value}`);
      left -= value;
    }
  return values.join("+");
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}
