import type { Score } from "../../../schema/index.js";
import { lineThrough } from "../../metrics/statistics.js";
import type { PlayedOnsets } from "../../onsets.js";
import { nearestFrom } from "../../state/guide.js";
import { logDensityOf, type ReadingOptions, readTake } from "../../state/reading.js";

/** A tempo that a take was played at throughout, and how well the riff fits it so. */
export interface OtherTempo {
  /** Length of the player's beat over that of the score: above 1 is slower. */
  readonly factor: number;
  /** Against "every onset is an addition", natural logarithm. */
  readonly logLikelihood: number;
  /** Of the onsets, each per ms, natural logarithm. */
  readonly logDensity: number;
}

// Tempi that are tried, as lengths of a beat against the written one: beyond them half and double the rate are nearer (our choice).
const SHORTEST = 0.62;
const LONGEST = 1.6;
const STEP = 1.0125;
// A note counts as found with an onset nearer than this, in beats; the more the nearer (our choice: a step of tempo over the first beats moves the last note by half of it).
const NEAR_BEATS = 0.1;
// The tempo is looked for in so many notes at the start of the take, and then in all before the first silence: with the accompaniment nobody drifts.
// So many must be accompanied in the take: in fewer, a tempo cannot be told from how a player finds the beat, and who then drifts alone is at no
// other tempo (our choice; in real trials of eight clicks and sixteen beats alone, one in eight looked like it).
const FIRST_NOTES = 12;
// In a line of equal notes several beginnings fit: one that lies a beat from where the take says costs so many notes (our choice).
const AWAY = 0.5;
// Nearer to the written tempo than this it is that tempo: a slow wander while accompanied looks like a tempo too (our choice).
const SAME_TEMPO = 0.02;

/** The tempo a take was played at from its first note on, when it is another than the written one. */
export function otherTempoOf(score: Score, played: PlayedOnsets, options: ReadingOptions): OtherTempo | undefined {
  const found = tempoFromStart(score, played);
  if (found === undefined || isSame(found)) return undefined;
  const starts = [found, { ...found, shiftMs: 0 }].map((line) => readAt(score, played, { ...options, line }));
  const read = starts[0]!.logLikelihood >= starts[1]!.logLikelihood ? starts[0]! : starts[1]!;
  // The tempo over the whole take is known better than from its start.
  const line = leastSquares(read.pairs);
  if (line === undefined || isSame(line)) return undefined;
  const again = readAt(score, played, { ...options, line });
  const [factor, best] = again.logLikelihood > read.logLikelihood ? [line.factor, again] : [found.factor, read];
  return { factor, logLikelihood: best.logLikelihood, logDensity: best.logDensity };
}

const isSame = ({ factor }: Line): boolean => Math.abs(Math.log(factor)) < SAME_TEMPO;

/** The take read against the score at the tempo of a line, and its pairs in the times of the score and of the take. */
function readAt(
  score: Score,
  played: PlayedOnsets,
  { line: { factor, shiftMs }, ...options }: ReadingOptions & { readonly line: Line },
): Pick<OtherTempo, "logLikelihood" | "logDensity"> & { readonly pairs: [number, number][] } {
  const moved = { ...played, at: played.at.map((at) => at - shiftMs) };
  const reading = readTake(atTempo(score, factor), moved, options);
  const { paired, guide } = reading;
  const pairs: [number, number][] = [];
  paired.onsets.forEach((onset, place) => {
    const note = guide.source[place]!;
    if (onset >= 0 && note >= 0) pairs.push([1000 * score.expected[note]!.at, played.at[onset]!]);
  });
  const { logLikelihood } = paired;
  return { logLikelihood, logDensity: logDensityOf(logLikelihood, reading), pairs };
}

/** The line at = shift + factor * written through the onsets before the first silence: found by trying, then by least squares. */
function tempoFromStart(score: Score, played: PlayedOnsets): Line | undefined {
  const until = score.dropouts[0]?.from ?? Number.POSITIVE_INFINITY;
  const guided = score.expected.filter(({ at }, k) => k < FIRST_NOTES || at < until);
  const written = Float64Array.from(guided, ({ at }) => 1000 * at);
  const onsets = played.at;
  if (accompaniedIn(score) < FIRST_NOTES || onsets.length < FIRST_NOTES) return undefined;
  const near = NEAR_BEATS * 1000 * score.beat;
  const first = written.subarray(0, FIRST_NOTES);
  let best: Line & { readonly fit: number } = { factor: 1, shiftMs: 0, fit: 0 };
  for (let factor = SHORTEST; factor < LONGEST; factor *= STEP)
    for (const [note, onset] of ANCHORS) {
      const line = { factor, shiftMs: onsets[onset]! - factor * written[note]! };
      const away = (AWAY * Math.abs(line.shiftMs)) / (1000 * score.beat);
      if (first.length - away <= best.fit) continue;
      const fit = fitOf(first, onsets, { ...line, near, least: best.fit + away }) - away;
      if (fit > best.fit) best = { ...line, fit };
    }
  const rough = leastSquares(matchesOf(first, onsets, { ...best, near })) ?? best;
  return leastSquares(matchesOf(written, onsets, { ...rough, near }));
}

/** How many notes are written where something sounds. */
function accompaniedIn({ expected, dropouts }: Score): number {
  return expected.filter(({ at }) => !dropouts.some(({ from, to, silent }) => silent && at >= from && at < to)).length;
}

// Which early note the first onsets are taken for: one of either may be missing.
const ANCHORS = [
  [0, 0],
  [0, 1],
  [1, 0],
  [1, 1],
] as const;

interface Line {
  readonly factor: number;
  readonly shiftMs: number;
}

type Matching = Line & { readonly near: number };

/** The notes that have an onset near where the line puts them, each with the nearest. */
function matchesOf(
  written: Float64Array,
  onsets: Float64Array,
  { factor, shiftMs, near }: Matching,
): [number, number][] {
  const matches: [number, number][] = [];
  let k = 0;
  for (const at of written) {
    const due = shiftMs + factor * at;
    k = nearestFrom(onsets, k, due);
    if (Math.abs(onsets[k]! - due) < near) matches.push([at, onsets[k]!]);
  }
  return matches;
}

/** How many notes have an onset near where the line puts them, each the more the nearer; minus infinity as soon as they cannot be more than `least`. */
function fitOf(
  written: Float64Array,
  onsets: Float64Array,
  { factor, shiftMs, near, least }: Matching & { readonly least: number },
): number {
  let fit = 0;
  let k = 0;
  for (let note = 0; note < written.length; note++) {
    const due = shiftMs + factor * written[note]!;
    k = nearestFrom(onsets, k, due);
    const off = (onsets[k]! - due) / near;
    if (Math.abs(off) < 1) fit += 1 - off * off;
    if (fit + written.length - 1 - note <= least) return Number.NEGATIVE_INFINITY;
  }
  return fit;
}

function leastSquares(pairs: readonly (readonly [number, number])[]): Line | undefined {
  if (pairs.every(([x]) => x === pairs[0]![0])) return undefined;
  const { slope, intercept } = lineThrough(
    pairs.map(([x]) => x),
    pairs.map(([, y]) => y),
  );
  return { factor: slope, shiftMs: intercept };
}

/** The score with every time stretched. */
function atTempo(score: Score, factor: number): Score {
  const stretched = <S extends { readonly from: number; readonly to: number }>(stretch: S): S => ({
    ...stretch,
    from: factor * stretch.from,
    to: factor * stretch.to,
  });
  return {
    ...score,
    duration: factor * score.duration,
    beat: factor * score.beat,
    ...(score.tempi && {
      tempi: score.tempi.map((each) => ({ ...each, at: factor * each.at, beat: factor * each.beat })),
    }),
    expected: score.expected.map((note) => ({ ...note, at: factor * note.at })),
    dropouts: score.dropouts.map(stretched),
    audible: score.audible.map(stretched),
    open: score.open.map((open) => ({
      ...stretched(open),
      subdivision: factor * open.subdivision,
      ...(open.grid === undefined ? {} : { grid: open.grid.map((at) => factor * at) }),
    })),
  };
}
