import { expect } from "vitest";
import type { Sheet, Shown } from "./pagesTable.js";
import type { Head, PrintedSystem } from "./readNotation.js";

interface Sign {
  readonly letter: string;
  readonly octave: number;
  readonly alter: number;
  readonly sign?: Head["sign"];
}

/** "F4" and how it is printed and read: "#/1", "(0)/0", "/-1". */
const lineOf = ({ letter, octave }: Sign): string => `${letter}${octave}`;
const saysOf = ({ alter, sign }: Sign): string =>
  `${sign === undefined ? "" : sign.isInParentheses ? `(${sign.alter})` : sign.alter}/${alter}`;

/**
 * A bar by its lines and spaces, each with its notes from left to right. The order of notes that begin together on one line is the engraver's:
 * `sizes` says how many of them there are each time, and they are put in order.
 */
function byLine(notes: readonly Sign[], sizes: ReadonlyMap<string, readonly number[]>): readonly string[] {
  return [...new Set(notes.map(lineOf))].sort().map((line) => {
    const all = notes.filter((note) => lineOf(note) === line).map(saysOf);
    const groups = (sizes.get(line) ?? []).map((size) => all.splice(0, size).sort().join(" + "));
    return `${line}: ${[...groups, ...all].join(", ")}`;
  });
}

function sizesOn(notes: readonly Shown[]): ReadonlyMap<string, readonly number[]> {
  const sizes = new Map<string, number[]>();
  const onLine = new Map<string, Shown>();
  for (const note of notes) {
    const last = onLine.get(lineOf(note));
    const counts = sizes.get(lineOf(note)) ?? [];
    if (last !== undefined && Math.abs(last.from - note.from) < 1e-6) counts[counts.length - 1]! += 1;
    else counts.push(1);
    sizes.set(lineOf(note), counts);
    onLine.set(lineOf(note), note);
  }
  return sizes;
}

/** The systems of a riff have the signature, lines, signs and pitches of a table, bar by bar. */
export function expectToShow(riff: readonly PrintedSystem[], table: Sheet): void {
  for (const { fifths } of riff) expect(fifths).toBe(table.fifths);
  const bars = riff.flatMap((system) => system.bars.map(({ heads }) => heads.filter(({ isTied }) => !isTied)));
  const read = bars.map((heads, i) => {
    const notes = heads.map((head) => ({ ...head, alter: head.reads }));
    return byLine(notes, sizesOn(table.bars[i] ?? []));
  });
  expect(read).toEqual(table.bars.map((notes) => byLine(notes, sizesOn(notes))));
}
