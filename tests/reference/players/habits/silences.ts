import type { Habit, Plan } from "../plan.js";

/** Indices of the notes of each silence, its landing not among them. */
function notesOf({ score, stage }: Plan): readonly (readonly number[])[] {
  return stage.silences.map(({ from, to }) =>
    score.expected.flatMap((_, note) => (stage.note[note]! >= from && stage.note[note]! < to ? [note] : [])),
  );
}

/** Nothing is played while the accompaniment is away; the landing is. */
export const restsInSilences: Habit = {
  name: "rests through each silence, lands",
  apply(plan) {
    for (const note of notesOf(plan).flat()) plan.played[note] = 0;
  },
};

/** Of every `of` notes in a silence (counted through it), `plays` chosen by luck are played, and the landing; of a rest fewer than `of` the same share, rounded up. */
export function playsSome(plays: number, of: number): Habit {
  return {
    name: `plays ${plays} of ${of} notes in each silence, lands`,
    apply(plan, luck) {
      const stream = luck("which notes");
      for (const notes of notesOf(plan)) {
        for (let first = 0; first < notes.length; first += of) {
          const group = notes.slice(first, first + of).map((note) => ({ note, key: stream.uniform() }));
          const kept = Math.ceil((plays * group.length) / of);
          for (const { note } of group.sort((a, b) => a.key - b.key).slice(kept)) plan.played[note] = 0;
        }
      }
    },
  };
}
