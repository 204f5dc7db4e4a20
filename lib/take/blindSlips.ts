import { beatAt, beatsOver } from "../base/index.js";
import type { Score } from "../schema/index.js";
import { displacementsOf } from "./state/displacements.js";
import { noiseAt, PRIOR, pointAtLevel } from "./state/noise.js";
import { beforeTake } from "./state/reading.js";
import { SLIPS } from "./state/slipMoves.js";
import { settledVariance } from "./state/space.js";

/** How well onsets alone would show a slip of one size in one silence. */
export interface SlipShown {
  /** Index of the dropout. */
  readonly dropout: number;
  /** Size of the slip in beats, either way. */
  readonly beats: number;
  /**
   * Expected log odds (natural) that a take with this slip was slipped and not in place: of skipped and waited, taken back after a bar and kept,
   * the least. Below `SLIP_SHOWN` the slip is not told for sure.
   */
  readonly logOdds: number;
}

/** Log odds from which a slip is sure: 9 to 1, as a verdict has to be. */
export const SLIP_SHOWN: number = Math.log(9);

// Beats after the return within which a slip has to show: what the tracker waits for; and the bars after which one that is taken back is.
const WINDOW_BEATS = 8;
const BACK_AFTER_BARS = 1;
// Larger slips are looked for in takes, and are not foretold: nobody writes a riff for them (our choice).
const LARGEST_BARS = 1;
// An onset stands for another note when it falls so near to its place, in standard deviations of a usual player (our choice).
const SAME_PLACE = 3;

/**
 * What the rhythm of a score shows of slips when pitches are not known: for each silence with a return, and each size of slip looked for, the
 * take a slipped player would make is laid over the written notes without noise. Notes left without an onset and onsets left without a note
 * speak for the slip, each by what leaving out or adding costs a usual player; that slips are rare speaks against it. In an even line displaced
 * by its own step nearly every onset falls on another note's place, and little is left to show the slip. Empty without silences that end.
 *
 * @example blindSlips(score).filter(({ logOdds }) => logOdds < SLIP_SHOWN)
 */
export function blindSlips(score: Score): SlipShown[] {
  const at = score.expected.map((note) => 1000 * note.at);
  const [first, second] = score.bars;
  const beatsInBar = second === undefined ? 4 : beatsOver(score, first!.at, second.at);
  const noise = noiseAt(pointAtLevel(PRIOR.motor), 0);
  const variance = noise.motor ** 2 + settledVariance(noise);
  const { chances } = beforeTake(score, undefined);
  const missed = -Math.log(chances.missing);
  const added = Math.log1p(-chances.missing) - 0.5 * Math.log(2 * Math.PI * variance) - 0.5 - Math.log(chances.adding);
  const near = SAME_PLACE * Math.sqrt(variance);
  return score.dropouts.flatMap((dropout, k) => {
    if (dropout.landing === null) return [];
    const beatMs = 1000 * beatAt(score, dropout.from);
    const barMs = beatsInBar * beatMs;
    const { slips } = displacementsOf(score, [beatMs]);
    const from = 1000 * dropout.from;
    const to = 1000 * dropout.to;
    const next = score.dropouts[k + 1]?.from ?? Number.POSITIVE_INFINITY;
    const until = Math.min(to + WINDOW_BEATS * beatMs, 1000 * next, 1000 * score.duration);
    const begins = at.findIndex((each) => each >= from - SAME_TIME_MS);
    const landing = at.findIndex((each) => each >= to - SAME_TIME_MS);
    if (begins < 0 || landing < 0) return [];
    // Before the silence all is in place, and later than the longest slip behind the window nothing falls into it.
    const begin = Math.max(0, begins - 1);
    const around = at.slice(begin).filter((each) => each < until + near + LARGEST_BARS * barMs + beatMs);
    const shown = (by: number, back: number, logShare: number): number => {
      let sum = 0;
      for (let start = begins; start <= landing; start++) {
        const played = slipped(around, { start: start - begin, by, back });
        const left = unexplained(around, played, { from: from - barMs, until, near });
        sum += missed * left.missed + added * left.added;
      }
      const starts = landing - begins + 1;
      return sum / starts + Math.log(SLIPS / starts) + logShare;
    };
    const sizes = [...new Set(slips.map(({ by }) => Math.abs(by)))].filter(
      (size) => size <= LARGEST_BARS * barMs + SAME_TIME_MS,
    );
    return sizes.map((size): SlipShown => {
      const each = slips
        .filter(({ by }) => Math.abs(by) === size)
        .flatMap(({ by, logShare }) => [
          shown(by, to + BACK_AFTER_BARS * barMs, logShare),
          shown(by, Number.POSITIVE_INFINITY, logShare),
        ]);
      return { dropout: k, beats: Math.round((1000 * size) / beatMs) / 1000, logOdds: Math.min(...each) };
    });
  });
}

// Times in a score file are rounded; half a millisecond is far below any note.
const SAME_TIME_MS = 0.5;

/** When the notes sound of a player who slips by so much at a note, and is back in place from a time on. */
function slipped(
  at: readonly number[],
  { start, by, back }: { readonly start: number; readonly by: number; readonly back: number },
): number[] {
  const played = at.slice(0, start);
  let last = played.at(-1) ?? Number.NEGATIVE_INFINITY;
  let note = start;
  for (; note < at.length && at[note]! + by < back; note++) {
    if (at[note]! + by <= last + SAME_TIME_MS) continue;
    last = at[note]! + by;
    played.push(last);
  }
  // Who comes back from behind leaves out what is over by then; who was ahead waits for the place.
  for (let place = 0; place < at.length; place++)
    if (at[place]! >= back && at[place]! > last + SAME_TIME_MS) played.push(at[place]!);
  return played;
}

/** Notes without an onset and onsets without a note, in order, within a window. */
function unexplained(
  at: readonly number[],
  played: readonly number[],
  { from, until, near }: { readonly from: number; readonly until: number; readonly near: number },
): { readonly missed: number; readonly added: number } {
  const inside = (time: number): boolean => time >= from && time < until;
  let missed = 0;
  let added = 0;
  let note = 0;
  for (const onset of played) {
    while (note < at.length && at[note]! < onset - near) if (inside(at[note++]!)) missed++;
    if (note < at.length && at[note]! <= onset + near) note++;
    else if (inside(onset)) added++;
  }
  while (note < at.length) if (inside(at[note++]!)) missed++;
  return { missed, added };
}
