import {
  type Interval,
  intervalBetween,
  type KeyPlace,
  type Note,
  octavesBeyond,
  readKeyPlace,
  transposePitch,
} from "../../pattern/index.js";
import type { Drill } from "../model.js";
import { notesOf } from "../variants.js";
import { valuesInForce } from "./context.js";

/** A key of a drill, with how far the pattern is moved there. */
export interface InKey {
  readonly place: KeyPlace;
  readonly interval: Interval;
}

/** The keys of a drill, the one first in which its notes lie lowest. */
export function keysOf(drill: Drill): readonly InKey[] {
  const home = drill.pattern.key;
  const keys = valuesInForce(drill, "key").map((text): InKey => {
    const place = (text === undefined ? undefined : readKeyPlace(text)) ?? { key: home, octaves: 0 as const };
    const interval = octavesBeyond(intervalBetween(home.tonic, place.key.tonic), place.octaves);
    return { place, interval };
  });
  return keys.sort((a, b) => a.interval.chromatic - b.interval.chromatic);
}

/** The notes of the student's part in all variants that are played, in the key of the pattern. */
export function studentsNotes(drill: Drill): readonly Note[] {
  const part = drill.pattern.parts.find(({ name }) => name === drill.student);
  return valuesInForce(drill, "variant").flatMap((variant) => (part && notesOf(part, variant)) ?? []);
}

/** The notes in a key. */
export function notesIn(notes: readonly Note[], { interval }: InKey): readonly Note[] {
  return notes.map((note) =>
    note.pitch === undefined ? note : { ...note, pitch: transposePitch(note.pitch, interval) },
  );
}
