import type { Score } from "../../../lib/schema/index.js";
import { landingNotes } from "./landingNotes.js";

/** A silence as places in the stage's moments. */
export interface StageSilence {
  /** Index among the score's dropouts. */
  readonly dropout: number;
  readonly from: number;
  readonly to: number;
  /** Seconds. */
  readonly length: number;
  /** Index of the note expected at the return; -1 when none is, or nothing returns. */
  readonly landing: number;
}

/** What a player stands in: the moments at which his pulse matters, and what can be heard at each. Times are seconds from bar 1. */
export interface Stage {
  /** Length of a beat, seconds. */
  readonly beat: number;
  /** Length of a bar, seconds: of the first, which is that of all on our rungs. */
  readonly bar: number;
  /** Every note, beat, stroke of the accompaniment and edge of a silence, ascending, each once. */
  readonly at: Float64Array;
  /** 1 where a beat falls that is heard. */
  readonly tick: Uint8Array;
  /** 1 where the accompaniment strikes a note (in the count-in: a beat). */
  readonly stroke: Uint8Array;
  /** The silence that the time from this moment to the next lies in; -1 for none. */
  readonly silent: Int16Array;
  /** The note expected at this moment; -1 for none. */
  readonly noteAt: Int32Array;
  /** The moment of each expected note. */
  readonly note: Int32Array;
  readonly silences: readonly StageSilence[];
}

// Two moments nearer than this are one: below any difference two readings of one place can have, far below any note.
const SAME = 1e-6;

/** Only silences in which nothing is left to play to are silences here. */
export function stageOf(score: Score): Stage {
  const silences = score.dropouts.filter(({ silent }) => silent);
  const beats = beatsOf(score);
  const strokes = strokesOf(score);
  const notes = score.expected.map(({ at }) => at);
  const edges = silences.flatMap(({ from, to }) => [from, to]);
  const at = Float64Array.from(unique([...beats, ...strokes, ...notes, ...edges]));
  const placeOf = (time: number): number => nearest(at, time);
  const audible = (time: number): boolean =>
    score.audible.some(({ from, to }) => time >= from - SAME && time < to - SAME);
  const tick = new Uint8Array(at.length);
  const stroke = new Uint8Array(at.length);
  for (const beat of beats) if (audible(beat)) tick[placeOf(beat)] = 1;
  for (const each of [...strokes, ...beats.filter((beat) => beat < -SAME)])
    if (audible(each)) stroke[placeOf(each)] = 1;
  const silent = new Int16Array(at.length).fill(-1);
  silences.forEach(({ from, to }, index) => {
    silent.fill(index, placeOf(from), placeOf(to));
  });
  const note = Int32Array.from(notes, placeOf);
  const noteAt = new Int32Array(at.length).fill(-1);
  note.forEach((place, index) => {
    noteAt[place] = index;
  });
  const landings = landingNotes(score);
  return {
    beat: score.beat,
    bar: score.bars[1]!.at - score.bars[0]!.at,
    at,
    tick,
    stroke,
    silent,
    noteAt,
    note,
    silences: silences.map((silence) => ({
      dropout: score.dropouts.indexOf(silence),
      from: placeOf(silence.from),
      to: placeOf(silence.to),
      length: silence.to - silence.from,
      landing: landings[score.dropouts.indexOf(silence)]!,
    })),
  };
}

/** The beats of the count-in and of every bar, counted from its downbeat; a bar's last beat may be longer or shorter than the others. */
function beatsOf({ bars, beat, countIn, duration }: Score): readonly number[] {
  const counted = Array.from({ length: Math.round(countIn / beat) }, (_, k) => -countIn + k * beat);
  return [
    ...counted,
    ...bars.flatMap(({ at }, index) => {
      const end = bars[index + 1]?.at ?? duration;
      // A beat that would begin less than half a beat before the next bar is part of the one before it.
      return Array.from({ length: Math.max(1, Math.round((end - at) / beat - SAME)) }, (_, k) => at + k * beat);
    }),
  ];
}

function strokesOf({ parts }: Score): readonly number[] {
  return parts.filter(({ student }) => !student).flatMap(({ notes }) => notes.map(({ at }) => at));
}

function unique(times: readonly number[]): readonly number[] {
  const kept: number[] = [];
  for (const time of [...times].sort((a, b) => a - b)) if (time - (kept.at(-1) ?? -Infinity) > SAME) kept.push(time);
  return kept;
}

function nearest(sorted: Float64Array, time: number): number {
  let [low, high] = [0, sorted.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < time - SAME) low = middle + 1;
    else high = middle;
  }
  return low;
}
