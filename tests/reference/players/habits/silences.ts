import type { Habit, Plan } from "../plan.js";

const SAME = 1e-6;

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

/** The player stops half-way through each silence and joins again on a beat one to three beats after the return, in time. */
export const stopsHalfWay: Habit = {
  name: "stops mid-silence, joins 1 to 3 beats after the return",
  apply({ score, stage, played }, luck) {
    const stream = luck("joins");
    for (const { from, to } of stage.silences) {
      const [start, end] = [stage.at[from]!, stage.at[to]!];
      const joins = end + (1 + stream.below(3)) * stage.beat;
      score.expected.forEach(({ at }, note) => {
        if (at > (start + end) / 2 + SAME && at < joins - SAME) played[note] = 0;
      });
    }
  },
};

/** Nothing is played in the silence; the landing answers what is heard, 190 ms after it (a quick reaction to sound; from memory). */
export const reactsToReturn: Habit = {
  name: "rests, and reacts to the return 190 ms late",
  apply(plan) {
    for (const note of notesOf(plan).flat()) plan.played[note] = 0;
    for (const { landing } of plan.stage.silences) if (landing >= 0) plan.alone[landing]! += 0.19;
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
