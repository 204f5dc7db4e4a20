import type { Score } from "../../../schema/index.js";
import type { Counts } from "../../metrics/counts.js";
import { CATCHING_UP_BEATS } from "../../metrics/steadiness.js";
import { keyNumber, type PlayedOnsets } from "../../onsets.js";
import { pitchClass } from "../../state/evidence.js";

/** Of the places of a phrase, those at which the player does the same otherwise in phrase after phrase. */
export interface OtherNotes {
  /** Places of the phrase with a written note that was asked for often enough. */
  readonly written: number;
  /** Places left out, and places with a note that is not written; a note that is only displaced is neither. */
  readonly leftOut: number;
  readonly added: number;
  /** Places whose pitch was known often enough, and those of them with another one. */
  readonly pitched: number;
  readonly otherPitch: number;
  /** How many notes were missed and added where that is asked about, and how many of them are those of these places. */
  readonly wrong: number;
  readonly habitual: number;
}

// What is done in so many phrases at least may be a habit (our choice: twice may be chance).
const FEWEST_PHRASES = 3;
// A pitch is a habit from two phrases on: other pitches are asked of many places together, and a recording may show few of them (our choice).
const FEWEST_PITCHES = 2;
// Places that are left out always: how rare they are, and how often the player keeps to it (our choice).
const HABITS = 0.03;
const KEEPS = 0.9;
// The rate of leaving out notes before a take, and what that is worth in notes; as for the pairing (our choice).
const USUAL = 0.04;
const WORTH = 30;
// Added notes are one place of the phrase when they lie within this, in beats; and habitual in this share of the phrases (our choice).
const ONE_PLACE_BEATS = 1 / 6;
const MOSTLY = 0.75;
// A note that is left out here and added as near as this is displaced, as when straight notes are swung: that is a matter of time (our choice).
const DISPLACED_BEATS = 0.2;
// Who plays less than this of a silence rests in it, and plays no other tune (our choice).
const PLAYS_THROUGH = 0.6;
// Pitches say something when so many different ones are played, and an interval prevails with a third of the notes, as in the pairing.
const DIFFERENT_PITCHES = 3;
const PREVAILS = 1 / 3;
// The pitches are those of the notes beside in so many pairs when the take is read a note or two off (our choice).
const IS_MOVED = 0.6;

/** A place at which the player does the same otherwise: seconds from the start of the phrase, and how many notes of the take that makes. */
interface Habit {
  readonly at: number;
  readonly notes: number;
}

interface Place {
  /** Seconds from the start of the phrase. */
  readonly at: number;
  asked: number;
  leftOut: number;
  readonly intervals: number[];
}

/** What a take does otherwise than written in phrase after phrase; `undefined` when it has too few phrases to show a habit, or is the riff read a note off. */
export function otherNotesIn(score: Score, played: PlayedOnsets, counts: Counts): OtherNotes | undefined {
  const starts = score.bars.flatMap(({ at, phrase }, k) => (phrase === score.bars[k - 1]?.phrase ? [] : [at]));
  if (starts.length < FEWEST_PHRASES) return undefined;
  const pitches = pitchesPlayed(score, played, counts);
  if (pitches === undefined) return undefined;
  const near = DISPLACED_BEATS * score.beat;
  const late = latenessAt(score, played, counts);
  const inTime = late.map((each, k) => played.at[k]! / 1000 - each);
  const returns = score.dropouts.filter(({ to }) => {
    const last = inTime.findLastIndex((at) => at < to - SAME);
    return Math.abs(late[last] ?? 0) > near;
  });
  const [begun, ended] = [played.at[0]! / 1000 - near, played.at.at(-1)! / 1000 + near];
  // Who joins later or stops earlier plays nothing else there. Who was away when the accompaniment came back plays one note where another is due.
  const isExcused = (at: number): boolean =>
    at < begun || at > ended || returns.some(({ to }) => at >= to - SAME && at <= to + CATCHING_UP_BEATS * score.beat);
  const all = placesOf(score, counts, { starts, intervals: pitches.intervals, isExcused });
  const leftOut = leftOutAlways(all);
  const isAdded = new Set(counts.added);
  const times = inTime.filter((_, k) => isAdded.has(played.given[k]!) && !isExcused(played.at[k]! / 1000));
  const added = addedAlways(score, { starts, times });
  const known = all.filter(({ intervals }) => intervals.length >= FEWEST_PITCHES);
  const apart = (from: readonly Habit[], others: readonly Habit[]): number =>
    from.filter(({ at }) => !others.some((other) => Math.abs(other.at - at) <= near)).length;
  return {
    written: all.length,
    leftOut: apart(leftOut, added),
    added: apart(added, leftOut),
    pitched: known.length,
    otherPitch: pitches.different < DIFFERENT_PITCHES ? 0 : known.filter(({ intervals }) => isOther(intervals)).length,
    wrong: all.reduce((sum, place) => sum + place.leftOut, times.length),
    habitual: [...leftOut, ...added].reduce((sum, { notes }) => sum + notes, 0),
  };
}

/** The places of the phrase that were asked for often enough; landings, and silences the player rested in, are matters of their own. */
function placesOf(
  score: Score,
  { missed }: Counts,
  {
    starts,
    intervals,
    isExcused,
  }: {
    readonly starts: readonly number[];
    readonly intervals: ReadonlyMap<number, number>;
    readonly isExcused: (time: number) => boolean;
  },
): Place[] {
  const places = new Map<number, Place>();
  const isMissed = new Set(missed);
  const aside = new Set(
    score.dropouts.flatMap(({ from, to }) => {
      const inside = score.expected.flatMap(({ at }, note) => (at >= from - SAME && at < to - SAME ? [note] : []));
      const landing = score.expected.findIndex(({ at }) => at >= to - SAME);
      const rested = inside.filter((note) => !isMissed.has(note)).length < PLAYS_THROUGH * inside.length;
      return rested ? [...inside, landing] : [landing];
    }),
  );
  score.expected.forEach(({ at }, note) => {
    const phrase = phraseOf(starts, at);
    if (phrase < 0 || aside.has(note) || isExcused(at)) return;
    const key = Math.round((at - starts[phrase]!) / SAME);
    const place = places.get(key) ?? { at: at - starts[phrase]!, asked: 0, leftOut: 0, intervals: [] };
    places.set(key, place);
    place.asked++;
    if (isMissed.has(note)) place.leftOut++;
    const interval = intervals.get(note);
    if (interval !== undefined) place.intervals.push(interval);
  });
  return [...places.values()].filter(({ asked }) => asked >= FEWEST_PHRASES);
}

const phraseOf = (starts: readonly number[], at: number): number => starts.findLastIndex((start) => start <= at + SAME);

// Score times are rounded; a millisecond is far below any note. Seconds.
const SAME = 1e-3;

/** Places that are left out by habit and not by chance, at the rate at which the other notes are left out. */
function leftOutAlways(places: readonly Place[]): Habit[] {
  const usual = places.filter(({ asked, leftOut }) => leftOut < MOSTLY * asked);
  const sum = (key: "asked" | "leftOut"): number => usual.reduce((total, place) => total + place[key], 0);
  const rate = (sum("leftOut") + USUAL * WORTH) / (sum("asked") + WORTH);
  const odds = Math.log(HABITS / (1 - HABITS));
  return places.flatMap(({ at, asked, leftOut }) => {
    const there = asked - leftOut;
    const habit = odds + leftOut * Math.log(KEEPS / rate) + there * Math.log((1 - KEEPS) / (1 - rate)) > 0;
    return habit ? [{ at, notes: leftOut }] : [];
  });
}

/** How late the last written note was at each onset, seconds. */
function latenessAt({ expected }: Score, { at, given }: PlayedOnsets, { pairs }: Counts): number[] {
  const noteOf = new Map(pairs.map(([note, onset]) => [onset, note]));
  let late = 0;
  return Array.from(at, (ms, k) => {
    const note = noteOf.get(given[k]!);
    if (note !== undefined) late = ms / 1000 - expected[note]!.at;
    return late;
  });
}

/** Places of the phrase that get an added note in most phrases. */
function addedAlways(
  { beat, duration }: Score,
  { starts, times }: { readonly starts: readonly number[]; readonly times: readonly number[] },
): Habit[] {
  const lengths = starts.map((start, k) => (starts[k + 1] ?? duration) - start);
  const found = times
    .map((at) => {
      const phrase = phraseOf(starts, at);
      return { phrase, at: at - (starts[phrase] ?? Number.NaN) };
    })
    .filter(({ phrase }) => phrase >= 0)
    .sort((a, b) => a.at - b.at);
  const always: Habit[] = [];
  for (let first = 0; first < found.length; ) {
    const from = found[first]!.at;
    let end = first;
    const phrases = new Set<number>();
    while (end < found.length && found[end]!.at < from + ONE_PLACE_BEATS * beat) phrases.add(found[end++]!.phrase);
    const long = lengths.filter((length) => length > from).length;
    const habit = phrases.size >= Math.max(FEWEST_PHRASES, MOSTLY * long);
    if (habit) always.push({ at: found[(first + end - 1) >> 1]!.at, notes: end - first });
    first = habit ? end : first + 1;
  }
  return always;
}

/**
 * The interval of each paired note against the written one, semitones within an octave, the interval at which the take sounds taken off; `undefined` of a take
 * that was read a note or two off.
 */
function pitchesPlayed(
  score: Score,
  { pitch, given }: PlayedOnsets,
  { pairs }: Counts,
): { readonly intervals: ReadonlyMap<number, number>; readonly different: number } | undefined {
  const playedAs = new Map<number, number>();
  given.forEach((onset, k) => {
    playedAs.set(onset, pitch[k]!);
  });
  const known = pairs.flatMap(([note, onset]): [number, number, number][] => {
    const played = playedAs.get(onset)!;
    const interval = played - keyNumber(score.expected[note]!.pitch);
    return Number.isNaN(interval) ? [] : [[note, pitchClass(interval), pitchClass(played)]];
  });
  const counts = new Float64Array(12);
  for (const [, interval] of known) counts[interval]!++;
  const most = counts.indexOf(Math.max(...counts));
  const shift = counts[0]! < PREVAILS * known.length && counts[most]! >= PREVAILS * known.length ? most : 0;
  // Who is a note off throughout, as with a latency that nobody told, plays this tune, and leaves out and adds what the reading makes of it.
  const written = score.expected.map((note) => keyNumber(note.pitch));
  const moved = [-2, -1, 1, 2].some((by) => {
    const same = known.filter(([note, , played]) => played === pitchClass(written[note + by] ?? Number.NaN)).length;
    return same > IS_MOVED * known.length;
  });
  if (moved) return undefined;
  return {
    intervals: new Map(known.map(([note, interval]) => [note, pitchClass(interval - shift)])),
    different: new Set(known.map(([, , played]) => played)).size,
  };
}

/** Whether a place is played at one other pitch in most of the phrases in which its pitch is known. */
function isOther(intervals: readonly number[]): boolean {
  const counts = new Map<number, number>();
  for (const interval of intervals) counts.set(interval, (counts.get(interval) ?? 0) + 1);
  return [...counts].some(([interval, count]) => interval !== 0 && count >= MOSTLY * intervals.length);
}
