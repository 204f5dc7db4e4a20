import { compare, fractionText } from "../base/index.js";
import { midiNumber, type Note, pitchText } from "../pattern/index.js";
import type { ExpectedOnset } from "../schema/index.js";
import { notesOf } from "./notesOf.js";
import type { TakeContext } from "./takeContext.js";
import { notesOutside, onsetsOf, takeNotes } from "./takeNotes.js";

/** The onsets expected of the student, whatever the mix does with the part: everywhere but in open bars. */
export function scoreExpected({ drill, settings, pattern, bars, time, open }: TakeContext): readonly ExpectedOnset[] {
  const part = pattern.parts.find(({ name }) => name === drill.student);
  const written = (part && notesOf(part, settings.variant)) ?? [];
  let bar = -1;
  return onsetsOf(notesOutside(takeNotes(drill, written), open)).map(({ position, notes }) => {
    while (bar + 1 < bars.length && compare(bars[bar + 1]!.position, position) <= 0) bar++;
    const pitch = highest(notes);
    return {
      position: fractionText(position),
      at: time.at(position),
      ...(pitch === undefined ? {} : { pitch: pitchText(pitch) }),
      ...(notes.some((note) => note.accent) ? { accent: true } : {}),
      part: drill.student,
      bar: bar < 0 ? 0 : bars[bar]!.number,
    };
  });
}

function highest(notes: readonly Note[]): Note["pitch"] {
  const pitches = notes.flatMap((note) => (note.pitch ? [note.pitch] : []));
  return pitches.reduce<Note["pitch"]>(
    (a, b) => (a !== undefined && midiNumber(a) >= midiNumber(b) ? a : b),
    undefined,
  );
}
