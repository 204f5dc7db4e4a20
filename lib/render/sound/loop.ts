import type { RecordedStretch, Score } from "../../schema/index.js";

/** Longest time a sound may ring on from the end of a loop into its beginning, seconds. Our choice: cymbals and basses are gone by then. */
const RINGS = 12;

/** What is played of a loop: its notes, the silences of two times round, and time for the last sounds to ring. Throws `RangeError` for more phrases than the score has. */
export function onceRound(score: Score, phrases: number): { readonly score: Score; readonly end: number } {
  const last = score.bars.at(-1)?.phrase ?? 0;
  const isThere = Number.isInteger(phrases) && phrases >= 1 && score.bars.some(({ phrase }) => phrase === phrases);
  if (!isThere) throw new RangeError(`a loop has 1 to ${last} phrases, got ${phrases}`);
  const end = score.bars.find(({ phrase }) => phrase === phrases + 1)?.at ?? score.duration;
  const isLast = !score.bars.some(({ phrase }) => phrase === phrases + 1);
  const dropouts = score.dropouts.filter(({ from }) => from < end);
  return {
    end,
    score: {
      ...score,
      countIn: 0,
      duration: end + RINGS,
      parts: score.parts.map((part) => ({
        ...part,
        ...(part.recorded === undefined ? {} : { recorded: part.recorded.flatMap((each) => within(each, end)) }),
        // Before the next phrase its pick-up is there; after the last, that of the first stands in.
        notes: part.notes.flatMap((note) => {
          if (note.at >= 0) return note.at < end ? [note] : [];
          return isLast ? [{ ...note, at: note.at + end }] : [];
        }),
      })),
      dropouts: [...dropouts, ...dropouts.map((each) => ({ ...each, from: each.from + end, to: each.to + end }))],
    },
  };
}

/** What of a recording lies between bar 1 and the end of the loop. */
function within(stretch: RecordedStretch, end: number): readonly RecordedStretch[] {
  const [from, to] = [Math.max(0, stretch.from), Math.min(end, stretch.to)];
  return from < to ? [{ ...stretch, from, to, start: stretch.start + (from - stretch.from) * stretch.speed }] : [];
}

/** Lays what sounds after the end over the beginning, as often as it goes round. */
export function folded(
  channel: Float32Array,
  { from, length }: { readonly from: number; readonly length: number },
): Float32Array {
  const round = new Float32Array(length);
  for (let i = from; i < channel.length; i++) round[(i - from) % length]! += channel[i]!;
  return round;
}
