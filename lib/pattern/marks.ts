import { add, fractionText } from "../base/index.js";
import type { Note } from "./model.js";
import { midiNumber } from "./pitch.js";

const MARKS = ["short", "tenuto", "slurred", "scoop", "fall", "ghost"] as const;

type Mark = (typeof MARKS)[number];

/** The marks of a note besides its accent, each present or absent. */
export type Marks = Pick<Note, Mark>;

/** The marks that something has, and nothing else of it. */
export function marksOf(note: { readonly [mark in Mark]?: boolean | undefined }): Marks {
  return Object.fromEntries(MARKS.flatMap((mark) => (note[mark] ? [[mark, true]] : [])));
}

/** Takes slurs away that lead to no note of another pitch: in files signs stray, and a slur may leave the bars that are taken. */
export function withoutLooseSlurs(notes: readonly Note[]): readonly Note[] {
  const keysAt = new Map<string, Set<number>>();
  for (const { position, pitch } of notes) {
    const at = fractionText(position);
    if (pitch) keysAt.set(at, (keysAt.get(at) ?? new Set()).add(midiNumber(pitch)));
  }
  return notes.map((note) => {
    if (!note.slurred) return note;
    const next = keysAt.get(fractionText(add(note.position, note.length)));
    if (next !== undefined && note.pitch !== undefined && !next.has(midiNumber(note.pitch))) return note;
    const { slurred: _, ...rest } = note;
    return rest;
  });
}
