import type { DropoutFinding, Score } from "../../schema/index.js";
import type { Counts } from "./counts.js";

export type Played = NonNullable<DropoutFinding["played"]>;

/**
 * Share of the notes of a silence that must be played for it to be within, where the teacher states none, rounded up to whole notes.
 * Our choice: of less than half, what was left out tells more than what was played; players who leave out one note in ten fall below it in
 * one of 270 silences of four notes and one of 36 of three.
 */
const USUAL_SHARE = 0.5;

// Shares are written as fractions: 2/3 of 6 notes are 4, whatever the last digit says.
const ROUNDING = 1e-9;

/** How many notes of each silence were played, how many are expected in it, and how many are asked for. */
export function playedIn(
  { expected, dropouts }: Score,
  { missed }: Counts,
  share: number = USUAL_SHARE,
): readonly Played[] {
  const out = new Uint8Array(expected.length);
  for (const note of missed) out[note] = 1;
  let note = 0;
  return dropouts.map(({ from, to }) => {
    while (note < expected.length && expected[note]!.at < from - SAME_TIME) note++;
    let notes = 0;
    let of = 0;
    for (; note < expected.length && expected[note]!.at < to - SAME_TIME; note++) {
      of++;
      notes += 1 - out[note]!;
    }
    return { notes, of, asked: Math.max(0, Math.ceil(share * of - ROUNDING)) };
  });
}

// Seconds: times in a score file are rounded; half a millisecond is far below any note.
const SAME_TIME = 0.0005;
