import { add, compare, type Fraction, subtract } from "../../base/index.js";
import type { Note } from "../../pattern/index.js";
import type { Drill } from "../model.js";
import type { Stretch } from "./stretch.js";
import { phraseStart, type TakeTime, takeLength } from "./take.js";

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
      all.push(endingBy(total, { ...note, position }));
    }
  }
  // A pick-up sounds before the end of the phrase before, so phrases overlap.
  return all.sort((a, b) => compare(a.position, b.position));
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
    else if (compare(gap.from, note.position) > 0) sounding.push(endingBy(gap[cutAt], note));
  }
  return sounding;
}

/** A note that goes no further than a position, where it ends as all that is cut there does. */
function endingBy(position: Fraction, note: Note): Note {
  const length = subtract(position, note.position);
  return compare(note.length, length) < 0 ? note : { ...note, length, endLate: undefined };
}

/** Notes that sound together. */
interface Onset {
  /** Seconds from the downbeat of bar 1. */
  readonly at: number;
  readonly notes: [Note, ...Note[]];
}

/** Groups notes by when they sound, in order: in swing a stroke written in triplets may be struck together with one written in eighths. */
export function onsetsOf(notes: readonly Note[], time: TakeTime): readonly Onset[] {
  const onsets: Onset[] = [];
  const single = notes.map((note): Onset => ({ at: time.at(note.position, note.late), notes: [note] }));
  for (const onset of single.sort((a, b) => a.at - b.at)) {
    const last = onsets.at(-1);
    if (last?.at === onset.at) last.notes.push(...onset.notes);
    else onsets.push(onset);
  }
  return onsets;
}
