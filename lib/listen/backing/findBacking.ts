import { type CandidateStart, candidateStarts } from "./candidateStarts.js";
import { advantage, explained } from "./explainedTime.js";
import { fitLagLine, type LagLine } from "./lagLine.js";
import { type OpenSound, type SoundFeatures, surveyBoth } from "./soundFeatures.js";
import { windowLags } from "./windowLags.js";

/** Where the backing is in a recording: seconds of the recording = start + seconds of the backing * (1 + skewPpm / 1e6). */
export interface BackingFound {
  readonly found: true;
  /** Seconds of the recording at which the backing's first sample is heard; negative when the recording began later. */
  readonly start: number;
  /** Standard error of `start`, seconds. */
  readonly startError: number;
  /** How much longer the backing lasts on the clock of the recording, parts per million (positive: slower). */
  readonly skewPpm: number;
  readonly skewErrorPpm: number;
  /** Windows the two were compared in, and how many of them agree. */
  readonly windows: number;
  readonly agreeing: number;
  /** Length of the backing, seconds on its own clock. */
  readonly seconds: number;
  /** Another place that explains the recording nearly as well, for instance a phrase later; seconds of the recording. */
  readonly rival?: number;
}

/** The backing is not heard in the recording: with headphones that is as it should be. */
export interface BackingNotFound {
  readonly found: false;
}
export type BackingPlace = BackingFound | BackingNotFound;

/** Places looked at by samples: so many of the likeliest, and of those nearly as likely so many that have most of both sounds in common; our choice. */
const LIKELIEST = 3;
const LONGEST = 6;
/** Likely places there are to choose from, all of which are looked at where the chosen ones fail, and what share of the likeliest one's strength is nearly as much; our choice. */
const CANDIDATES = 40;
const NEARLY = 0.6;
/** Windows that choose among the places, and windows that measure at the one chosen: our choice, their error falls with the root only. */
const CHOOSING = 8;
const MEASURING = 30;
/**
 * A share of windows that must agree, and how far they may lie off their line, seconds (standard deviation): our choice. A backing has them
 * within hundredths of a millisecond; other music in the same key and time agrees now and then, and lies anywhere in reach of a line.
 */
const LEAST_SHARE = 0.5;
const MOST_LAG_ERROR = 0.1e-3;
const LEAST_WINDOWS = 3;
/**
 * Places for which this share of the most evidence speaks are asked which explains more of the recording; our choice: how high windows stand
 * differs with how loud the player is in them.
 */
const EVIDENCE = 0.3;
/** A rival lies at least so many seconds off, and the chosen place explains no more than so many seconds more: our choice, a bar or two. */
const APART = 0.05;
const HARDLY_MORE = 3;
/** A rival has this share of the chosen place's evidence at least; our choice. */
const RIVAL_SHARE = 0.8;
/** Repeats of the chosen place that are looked at on each side; our choice: a few phrases. */
const REPEATS = 4;

/**
 * Finds where a known backing starts in a recording, and how the clocks of both devices differ.
 *
 * Novelty curves give likely places; at each, windows of one to two seconds over the whole backing are placed to a fraction of a sample by
 * generalised cross-correlation (Knapp & Carter 1976), and the place counts whose lags lie on one line. Each sound is gone through once; memory
 * grows by 14 to 25 kB for a second of sound, and by 45 kB more up to 21 minutes. A recording without sound, or without the backing, is `found: false`.
 *
 * @example
 * const place = await findBacking(openRecording, openBacking);
 */
export async function findBacking(recording: OpenSound, backing: OpenSound): Promise<BackingPlace> {
  const sounds = await surveyBoth(recording, backing);
  return sounds === undefined ? { found: false } : placeOf(sounds.recording, sounds.backing);
}

/**
 * As `findBacking`, of sounds that have been gone through. Of a backing that repeats itself, a beginning of the recording fits at every repeat: who
 * knows about when it began says between which seconds it lies.
 */
export function placeOf(
  recording: SoundFeatures,
  backing: SoundFeatures,
  between: { readonly from: number; readonly to: number } = {
    from: Number.NEGATIVE_INFINITY,
    to: Number.POSITIVE_INFINITY,
  },
): BackingPlace {
  const { seconds } = backing;
  const sounds = { recording, backing };
  const lineAt = (start: number, terms: { most: number; skew?: number }): LagLine | undefined => {
    const line = fitLagLine(windowLags(start, { ...sounds, ...terms }));
    return line !== undefined && line.used >= Math.max(LEAST_WINDOWS, LEAST_SHARE * line.tried) ? line : undefined;
  };
  const sharedAt = (start: number): number => Math.min(seconds, recording.seconds - start) - Math.max(0, -start);
  const found: Candidate[] = [];
  const isMeant = ({ start }: { readonly start: number }): boolean => start >= between.from && start <= between.to;
  const places = candidateStarts(recording.novelty, backing.novelty, CANDIDATES).filter(isMeant);
  const first = chosenFrom(places, sharedAt);
  const others = places.filter((place) => !first.includes(place));
  for (const [i, { start }] of [...first, ...others].entries()) {
    // The others only where none of the first holds the backing: strokes alike at equal distances are in step at many places.
    if (found.length > 0 && i >= first.length) break;
    const line = lineAt(start, { most: CHOOSING });
    if (line === undefined || !isMeant(line) || found.some((other) => Math.abs(other.line.start - line.start) < APART))
      continue;
    found.push(candidateOf(line, sharedAt(start)));
  }
  const most = Math.max(...found.map(({ evidence }) => evidence));
  const contest = found.filter(({ evidence }) => evidence >= EVIDENCE * most).sort((a, b) => b.evidence - a.evidence);
  // Those with most evidence first: another is better when the backing is heard where only the other has it.
  const isBetter = (line: LagLine, than: LagLine): boolean => {
    const more = explained(line, than, sounds);
    return more > 0 && more > explained(than, line, sounds);
  };
  const winner = contest.reduce<Candidate | undefined>(
    (best, each) => (best === undefined || isBetter(each.line, best.line) ? each : best),
    undefined,
  );
  const by = repeatOf(contest);
  const onward = winner && farthest(winner.line, { by, lineAt, isBetter });
  const chosen = onward !== undefined && isMeant(onward) ? onward : winner?.line;
  const best = chosen && lineAt(chosen.start, { most: MEASURING, skew: chosen.skew });
  if (chosen === undefined || best === undefined || best.standardError > MOST_LAG_ERROR) return { found: false };
  const rivals = ({ line, evidence }: Candidate): boolean =>
    chosen !== line && evidence >= RIVAL_SHARE * winner!.evidence && advantage(chosen, line, sounds) <= HARDLY_MORE;
  const rival = (contest.find(rivals) ?? repeatsOf(chosen, { by, lineAt, sharedAt }).find(rivals))?.line;
  return {
    found: true,
    start: best.start,
    startError: best.startError,
    skewPpm: best.skew * 1e6,
    skewErrorPpm: best.skewError * 1e6,
    windows: best.tried,
    agreeing: best.used,
    seconds,
    ...(rival === undefined ? {} : { rival: rival.start }),
  };
}

/** A place that has been looked at by samples. */
interface Candidate {
  readonly line: LagLine;
  /** What speaks for it: that of a window on average, times the seconds in common. */
  readonly evidence: number;
}

function candidateOf(line: LagLine, shared: number): Candidate {
  return { line, evidence: (shared / line.tried) * line.evidence };
}

/** The next repeats of a place, earlier and later: they need not be among the likely places. */
function repeatsOf(
  { start }: LagLine,
  {
    by,
    lineAt,
    sharedAt,
  }: {
    readonly by: number | undefined;
    readonly lineAt: (start: number, terms: { most: number }) => LagLine | undefined;
    readonly sharedAt: (start: number) => number;
  },
): readonly Candidate[] {
  if (by === undefined) return [];
  const steps = Array.from({ length: REPEATS }, (_, k) => [-(k + 1) * by, (k + 1) * by]).flat();
  return steps.flatMap((step) => {
    const line = sharedAt(start + step) > 0 ? lineAt(start + step, { most: CHOOSING }) : undefined;
    return line !== undefined && Math.abs(line.start - start - step) <= APART
      ? [candidateOf(line, sharedAt(start + step))]
      : [];
  });
}

/** Seconds from one place to the next of those that are contested, the least; `undefined` when there is but one. */
function repeatOf(contest: readonly Candidate[]): number | undefined {
  const starts = contest.map(({ line }) => line.start).sort((a, b) => a - b);
  return starts.slice(1).reduce<number | undefined>((least, start, i) => {
    const gap = start - starts[i]!;
    return least === undefined || gap < least ? gap : least;
  }, undefined);
}

/** The place to which going on by repeats, earlier or later, leads as long as each is better: of a loop, not every repeat is a likely place. */
function farthest(
  line: LagLine,
  {
    by,
    lineAt,
    isBetter,
  }: {
    readonly by: number | undefined;
    readonly lineAt: (start: number, terms: { most: number }) => LagLine | undefined;
    readonly isBetter: (line: LagLine, than: LagLine) => boolean;
  },
): LagLine {
  if (by === undefined) return line;
  let best = line;
  for (const step of [-by, by]) {
    for (;;) {
      const next = lineAt(best.start + step, { most: CHOOSING });
      // A window may find the same place again, and what does not lie a repeat on is another place.
      if (next === undefined || Math.abs(next.start - best.start - step) > APART || !isBetter(next, best)) break;
      best = next;
    }
  }
  return best;
}

/** The places worth a look, the likeliest first. */
function chosenFrom(places: readonly CandidateStart[], sharedAt: (start: number) => number): readonly CandidateStart[] {
  const near = places.filter(({ strength }) => strength >= NEARLY * places[0]!.strength);
  const longest = [...near].sort((a, b) => sharedAt(b.start) - sharedAt(a.start)).slice(0, LONGEST);
  const likeliest = places.slice(0, LIKELIEST);
  return [...likeliest, ...longest.filter((place) => !likeliest.includes(place))];
}
