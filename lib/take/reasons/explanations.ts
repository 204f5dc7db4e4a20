import type { Worded } from "../../base/index.js";
import type { Reason, Score } from "../../schema/index.js";
import type { Counts } from "../metrics/counts.js";
import type { PlayedOnsets } from "../onsets.js";
import { reasonOf, say } from "../say.js";
import { evidenceOf } from "../state/evidence.js";
import { playedWithin, scoreWithin, type Window } from "../state/excerpt.js";
import { guideOf } from "../state/guide.js";
import { type Paired, pairOnsets } from "../state/pairing.js";
import { type Reading, type ReadingOptions, readTake } from "../state/reading.js";
import { FEWEST_WRONG, type Passage, passagesOf, poorlyExplained } from "./passages.js";
import { startsElsewhere } from "./reasons.js";

/** Another way in which a take may have been played: the score as the player would have taken it. */
export interface Explanation {
  readonly reason: Reason;
  readonly score: Score;
  /** Milliseconds the whole take is moved against the score. */
  readonly shiftMs: number;
  /** The poorly explained stretch it must explain better, seconds. */
  readonly where: Window;
}

// Another explanation counts when it finds this share of its notes, and of the onsets (our choice).
const WELL_EXPLAINED = 0.7;
// What an unusual way of playing must make up for: one take in a hundred is played so (our choice); and how near it may come before it leaves doubt.
const LOG_UNUSUAL = Math.log(0.01);
const LEAVES_DOUBT = 3;

/** The way of playing that explains a poorly explained take about as well as the score, or better; with the log-likelihood of the stretch they differ in. */
export function otherExplanation(
  score: Score,
  reading: Reading,
  {
    played,
    counts,
    options,
  }: { readonly played: PlayedOnsets; readonly counts: Counts; readonly options: ReadingOptions },
): (Explanation & { readonly logLikelihood: number }) | undefined {
  const passages = passagesOf(score, played, counts);
  const poor = passages.filter(poorlyExplained);
  const displaced = hangsOver(score, played, counts);
  if (poor.length === 0 && !displaced) return undefined;
  const whole = { notes: score.expected.length, missed: counts.missed.length, added: counts.added.length };
  const mostly = poorlyExplained(whole);
  const candidates = [
    ...poor
      .filter(suggestsRate)
      .slice(0, PASSAGES_TRIED)
      .flatMap((passage) => ratesIn(score, passage)),
    ...(mostly && suggestsRate(whole) ? ratesIn(score, THROUGHOUT) : []),
    ...(mostly || displaced ? startsOf(score, played) : []),
  ];
  const weigh = weighing(score, reading, played);
  let best: { explanation: Explanation; gain: number; logLikelihood: number } | undefined;
  for (const explanation of candidates) {
    const { gain, logLikelihood } = weigh(explanation);
    if (gain > (best?.gain ?? -LEAVES_DOUBT)) best = { explanation, gain, logLikelihood };
  }
  if (best === undefined || !startsSo(score, played, best.explanation.shiftMs, options)) return undefined;
  return { ...best.explanation, logLikelihood: best.logLikelihood };
}

// So many poorly explained passages are looked into, the earliest first, so that a long take that fits nothing is refused in time (our choice).
const PASSAGES_TRIED = 2;

// So many notes missed at one end of a take and onsets added beyond the other make one ask whether its zero is right (our choice: one may be chance).
const HANGS_OVER = 2;

/** Whether the first notes were missed and the last onsets added, or the other way round: as when a take starts elsewhere than it says. */
function hangsOver(score: Score, { given }: PlayedOnsets, counts: Counts): boolean {
  const missed = new Set(counts.missed);
  const added = new Set(counts.added);
  const run = (length: number, stands: (k: number) => boolean): boolean =>
    length >= HANGS_OVER && Array.from({ length: HANGS_OVER }, (_, k) => k).every(stands);
  const notes = score.expected.length;
  const onsets = given.length;
  return (
    (run(notes, (k) => missed.has(k)) && run(onsets, (k) => added.has(given[onsets - 1 - k]!))) ||
    (run(onsets, (k) => added.has(given[k]!)) && run(notes, (k) => missed.has(notes - 1 - k)))
  );
}

// A stretch is weighed with so many beats on either side, in which the player's time shows.
const BEATS_AROUND = 8;

/**
 * How much likelier the take is under an explanation than as written in the stretch in which they differ, natural logarithm, its rarity
 * included.
 */
function weighing(
  score: Score,
  reading: Reading,
  played: PlayedOnsets,
): (explanation: Explanation) => { readonly gain: number; readonly logLikelihood: number } {
  const asWritten = new Map<string, number>();
  const gainIn = (
    within: Window,
    { score: other, shiftMs }: Explanation,
  ): { readonly gain: number; readonly logLikelihood: number } => {
    const stretch = `${within.from} ${within.to}`;
    const written = asWritten.get(stretch) ?? explainedBy(score, within, { reading, played, shiftMs: 0 }).logLikelihood;
    asWritten.set(stretch, written);
    const { logLikelihood, onsets, notes, heard } = explainedBy(other, within, { reading, played, shiftMs });
    const found = onsets.reduce((count, onset) => count + (onset >= 0 ? 1 : 0), 0);
    const explains = found >= WELL_EXPLAINED * Math.max(notes, heard);
    const unusual = logLikelihood + LOG_UNUSUAL;
    return { gain: explains ? unusual - written : Number.NEGATIVE_INFINITY, logLikelihood: unusual };
  };
  const around = BEATS_AROUND * score.beat;
  return (explanation) => {
    const { from, to } = explanation.where;
    return gainIn({ from: from - around, to: to + around }, explanation);
  };
}

function explainedBy(
  score: Score,
  within: Window,
  { reading, played, shiftMs }: { readonly reading: Reading; readonly played: PlayedOnsets; readonly shiftMs: number },
): Pick<Paired, "logLikelihood" | "onsets"> & { readonly notes: number; readonly heard: number } {
  const written = scoreWithin(score, within);
  const heard = playedWithin(played, within);
  const guide = guideOf(written);
  const moved = { ...heard, at: heard.at.map((at) => at - shiftMs) };
  const evidence = evidenceOf(written, guide, moved);
  const logAdded = reading.logAdded.subarray(heard.first, heard.first + heard.at.length);
  const paired = pairOnsets(guide, { at: moved.at, logAdded, ...(evidence && { evidence }) }, reading.assumed);
  return { ...paired, notes: written.expected.length, heard: heard.at.length };
}

// At twice the rate about as many notes are added as are written, at half of it about half are left out; ornaments add to a third of
// them, and chance slips do both alike (our choice).
const SUGGESTS_HALF = 0.3;
const SUGGESTS_DOUBLE = 0.75;

/** Whether a passage may have been played at another rate: enough was played for half of it, and what is wrong is wrong one way. */
function suggestsRate({ notes, missed, added }: Pick<Passage, "notes" | "missed" | "added">): boolean {
  const suggests = added - missed >= SUGGESTS_DOUBLE * notes || missed - added >= SUGGESTS_HALF * notes;
  return notes - missed + added >= notes / 3 && suggests;
}

/** Played at double or half the rate in a passage. */
function ratesIn(score: Score, { from, to, dropout }: Pick<Passage, "from" | "to" | "dropout">): Explanation[] {
  const inside = ({ at }: { at: number }): boolean => at >= from && at <= to;
  const where = dropout !== undefined ? "silence" : to === Number.POSITIVE_INFINITY ? "throughout" : "for-a-while";
  const given = { where, silence: (dropout ?? 0) + 1 } as const;
  const explained = (expected: Score["expected"], code: string, said: Worded): Explanation => ({
    reason: reasonOf(code, said, dropout),
    score: { ...score, expected },
    shiftMs: 0,
    where: { from, to },
  });
  const twice = say("take.maybe-double-rate", given);
  const half = say("take.maybe-half-rate", given);
  return [
    explained(doubled(score.expected, inside), "DOUBLE_RATE", twice),
    ...[0, 1].map((parity) =>
      explained(
        score.expected.filter((note, k) => !inside(note) || k % 2 === parity),
        "HALF_RATE",
        half,
      ),
    ),
  ];
}

const THROUGHOUT = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY, dropout: undefined };

function doubled(expected: Score["expected"], inside: (note: { at: number }) => boolean): Score["expected"] {
  return expected.flatMap((note, k) => {
    const next = expected[k + 1];
    if (next === undefined || !inside(note) || !inside(next)) return [note];
    return [note, { position: note.position, part: note.part, bar: note.bar, at: (note.at + next.at) / 2 }];
  });
}

/**
 * Whether the notes beside open bars bear out that a take begins so much later. In open bars the tempo is the player's own: another start
 * explains what is played there as well as drift does, and drift can lead the reading of the rest astray.
 */
function startsSo(score: Score, played: PlayedOnsets, shiftMs: number, options: ReadingOptions): boolean {
  const explained = (later: number): number => {
    // A note belongs to the bars whose first subdivision it is nearest to.
    const beside = (values: Float64Array): Float64Array =>
      values.filter((_, k) =>
        score.open.every(({ from, to, subdivision }) => {
          const at = (played.at[k]! - later) / 1000 + subdivision / 2;
          return at < from || at >= to;
        }),
      );
    const at = beside(played.at).map((each) => each - later);
    const moved = { ...played, at, pitch: beside(played.pitch), velocity: beside(played.velocity) };
    return readTake({ ...score, open: [] }, moved, options).paired.logLikelihood;
  };
  return shiftMs === 0 || score.open.length === 0 || explained(shiftMs) + LOG_UNUSUAL > explained(0);
}

// Shifts of the whole take that are tried: the likeliest few, found as the most frequent distances between onsets and notes (our choice).
const STARTS_TRIED = 4;
const LONGEST_START_MS = 20000;
// The start is found from so many notes and onsets at most.
const NOTES_LOOKED_AT = 400;
// A take that starts elsewhere has at most so many of its onsets before its first note or after its last (our choice: a few strokes to find the
// tempo). A riff that repeats fits itself a phrase later, and who moved in the first phrase did not begin in the second.
const STRAYS = 0.1;

/** The whole take begun earlier or later than it says. */
function startsOf(score: Score, played: PlayedOnsets): Explanation[] {
  const width = 50;
  const counts = new Map<number, number>();
  for (const note of score.expected.slice(0, NOTES_LOOKED_AT)) {
    for (const at of played.at.subarray(0, NOTES_LOOKED_AT)) {
      const distance = at - note.at * 1000;
      if (Math.abs(distance) > LONGEST_START_MS || Math.abs(distance) < (score.beat * 1000) / 3) continue;
      const bin = Math.round(distance / width);
      counts.set(bin, (counts.get(bin) ?? 0) + 1);
    }
  }
  const near = (bin: number): number =>
    (counts.get(bin - 1) ?? 0) / 2 + counts.get(bin)! + (counts.get(bin + 1) ?? 0) / 2;
  return [...counts.keys()]
    .filter((bin) => playedBeyond(score, played, bin * width) <= Math.max(FEWEST_WRONG, STRAYS * played.at.length))
    .sort((a, b) => near(b) - near(a))
    .slice(0, STARTS_TRIED)
    .map((bin) => {
      const shiftMs = bin * width;
      return {
        reason: startsElsewhere(shiftMs),
        score,
        shiftMs,
        where: THROUGHOUT,
      };
    });
}

/** How many onsets lie more than a beat before the first note, or after the last, of the score begun so much later. */
function playedBeyond({ expected, beat }: Score, { at }: PlayedOnsets, shiftMs: number): number {
  const from = 1000 * (expected[0]!.at - beat) + shiftMs;
  const to = 1000 * (expected.at(-1)!.at + beat) + shiftMs;
  return at.reduce((count, onset) => count + (onset < from || onset > to ? 1 : 0), 0);
}
