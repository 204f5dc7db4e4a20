import { add, equals, type Fraction, fraction, multiply, negate } from "../../base/index.js";
import { barLength } from "../../time/index.js";
import type { Frame } from "../compile/bars.js";
import type { Note } from "../model.js";
import { midiNumber, pitchText } from "../pitch.js";
import { formerBars } from "./bars.js";
import { type FormerNote, formerLength, formerWords } from "./words.js";

/** The notes of a line in the former spelling, as they were read; `undefined` for a line that had a problem. The truth a rewritten line is compared with. */
export function formerNotes(line: string, frame: Frame): readonly Note[] | undefined {
  const { pieces, firstBar } = formerBars(line, frame, (text) => fillsPickup(text, frame));
  if (pieces.length - (1 - firstBar) !== frame.bars.length) return undefined;
  const placed: { readonly note: FormerNote; readonly position: Fraction; readonly length: Fraction }[] = [];
  let repeated = "";
  for (const [i, piece] of pieces.entries()) {
    const number = firstBar + i;
    if (piece.text === "%" && number <= 1) return undefined;
    const text = piece.text === "%" ? repeated : piece.text;
    repeated = text;
    const bar = frame.bars[Math.max(0, number - 1)]!;
    const [start, wanted] = number === 0 ? [negate(frame.pickup), frame.pickup] : [bar.position, barLength(bar.meter)];
    const words = text === "" ? undefined : formerWords(text);
    if (!words) return undefined;
    let position = start;
    const place = (note: FormerNote, ratio: Fraction): void => {
      const length = note.length === undefined ? wanted : multiply(note.length, ratio);
      placed.push({ note, position, length });
      position = add(position, length);
    };
    for (const word of words) {
      if (word.kind === "note") place(word, fraction(1));
      else for (const note of word.notes) place(note, fraction(word.inTimeOf, word.count));
    }
    if (!equals(position, add(start, wanted))) return undefined;
  }
  const notes: Note[] = [];
  for (let i = 0; i < placed.length; i++) {
    const first = placed[i]!;
    let { length } = first;
    while (placed[i]!.note.tied) {
      const next = placed[i + 1];
      if (!next || pitchesText(next.note) !== pitchesText(first.note)) return undefined;
      length = add(length, next.length);
      i++;
    }
    const pitches = [...first.note.pitches].sort((a, b) => midiNumber(a) - midiNumber(b));
    for (const pitch of pitches) notes.push({ position: first.position, length, pitch, accent: first.note.accent });
  }
  return notes;
}

/** The pitches of a note or chord in one order, to be compared. */
export function pitchesText(note: FormerNote): string {
  return note.pitches.map(pitchText).sort().join("+");
}

/** Whether a text was as long as the pick-up. */
export function fillsPickup(text: string, frame: Frame): boolean {
  return equals(formerLength(formerWords(text) ?? []), frame.pickup);
}
