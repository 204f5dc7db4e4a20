import { add, compare, type Fraction, subtract, toNumber } from "../../base/index.js";
import type { Note } from "../../pattern/index.js";
import type { Drill } from "../model.js";
import { earliest, type Stretch } from "./stretch.js";
import { phraseStart, takeLength } from "./take.js";

/** The notes of a part over a whole take: once for each phrase, and once up to the end of the outro. In order of time. */
export function takeNotes(drill: Drill, notes: readonly Note[]): readonly Note[] {
  const total = takeLength(drill);
  const all: Note[] = [];
  const phrases = drill.phrases + (drill.outro.n > 0 ? 1 : 0);
  for (let phrase = 1; phrase <= phrases; phrase++) {
    const start = phraseStart(drill, phrase);
    for (const note of notes) {
      const position = add(start, note.position);
      if (compare(position, total) >= 0) continue;
      const end = earliest(add(position, note.length), total);
      all.push({ ...note, position, length: subtract(end, position) });
    }
  }
  // A pick-up sounds before the end of the phrase before, so phrases overlap.
  return all.sort((a, b) => toNumber(a.position) - toNumber(b.position));
}

/** The notes (in order) that begin outside the gaps (joined). A note that rings into a gap ends where the gap begins, or where it ends when `cutAt` is "to". */
export function notesOutside(
  notes: readonly Note[],
  gaps: readonly Stretch[],
  cutAt: "from" | "to" = "from",
): readonly Note[] {
  const sounding: Note[] = [];
  let next = 0;
  for (const note of notes) {
    while (next < gaps.length && compare(gaps[next]!.to, note.position) <= 0) next++;
    const gap = gaps[next];
    if (gap === undefined) sounding.push(note);
    else if (compare(gap.from, note.position) > 0) {
      const end = earliest(add(note.position, note.length), gap[cutAt]);
      sounding.push({ ...note, length: subtract(end, note.position) });
    }
  }
  return sounding;
}

/** Groups notes (in order) by position, in order. */
export function onsetsOf(
  notes: readonly Note[],
): readonly { readonly position: Fraction; readonly notes: readonly Note[] }[] {
  const onsets: { position: Fraction; notes: Note[] }[] = [];
  for (const note of notes) {
    const last = onsets.at(-1);
    if (last !== undefined && compare(last.position, note.position) === 0) last.notes.push(note);
    else onsets.push({ position: note.position, notes: [note] });
  }
  return onsets;
}
