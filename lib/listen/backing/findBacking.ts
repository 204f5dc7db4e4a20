import { lagsAbout } from "./lags.js";
import { type LagLine, lineThrough } from "./line.js";
import { likelyPlaces } from "./places.js";
import { type OpenSound, type Surveyed, survey } from "./survey.js";

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

/** Places looked at by samples, best first: a riff that comes again looks much like itself a phrase later. */
const CANDIDATES = 5;
/** A place below this share of the likeliest one's strength is not looked at once the backing has been found elsewhere. */
const WORTH_A_LOOK = 0.8;
/** Windows that choose among the places, and windows that measure at the one chosen: our choice, their error falls with the root only. */
const CHOOSING = 8;
const MEASURING = 24;
/**
 * A share of windows that must agree, and how far they may lie off their line, seconds (standard deviation): our choice. A backing has them
 * within hundredths of a millisecond; other music in the same key and time agrees now and then, and lies anywhere in reach of a line.
 */
const LEAST_SHARE = 0.4;
const MOST_SCATTER = 0.1e-3;
const LEAST_WINDOWS = 3;
/** Of places with this share of the most evidence, the one that has most of the backing in the recording is taken; our choice. */
const AS_GOOD = 0.95;
/** A rival lies at least so many seconds off, and has these shares of the chosen place's evidence, and of its seconds in common: our choice. */
const APART = 0.05;
const RIVAL_SHARE = 0.8;
const RIVAL_SHARED = 0.98;

/**
 * Finds where a known backing starts in a recording, and how the clocks of both devices differ.
 *
 * Novelty curves give likely places; at each, windows of one to two seconds over the whole backing are placed to a fraction of a sample by
 * generalised cross-correlation (Knapp & Carter 1976), and the place counts whose lags lie on one line. Each sound is gone through once; memory
 * grows by 14 to 25 kB for a second of sound, and by 45 kB more up to 25 minutes. A recording without sound, or without the backing, is `found: false`.
 */
export async function findBacking(recording: OpenSound, backing: OpenSound): Promise<BackingPlace> {
  const [heard, known] = [await survey(recording), await survey(backing)];
  return heard === undefined || known === undefined ? { found: false } : placeOf(heard, known);
}

/** As `findBacking`, of sounds that have been gone through. */
export function placeOf(recording: Surveyed, backing: Surveyed): BackingPlace {
  const { seconds } = backing;
  const lineAt = (start: number, terms: { most: number; skew?: number }): LagLine | undefined => {
    const line = lineThrough(lagsAbout(start, { recording, backing, ...terms }));
    return line !== undefined && line.used >= Math.max(LEAST_WINDOWS, LEAST_SHARE * line.tried) ? line : undefined;
  };
  const found: Candidate[] = [];
  const places = likelyPlaces(recording.novelty, backing.novelty, CANDIDATES);
  for (const { start, strength } of places) {
    // Once a place is found, only those whose novelty is as much like it could be the right one as well.
    if (found.length > 0 && strength < WORTH_A_LOOK * places[0]!.strength) break;
    const line = lineAt(start, { most: CHOOSING });
    if (line === undefined) continue;
    const shared = Math.min(seconds, recording.seconds - start) - Math.max(0, -start);
    found.push({ line, shared, evidence: (shared * line.evidence) / line.tried });
  }
  const most = Math.max(...found.map(({ evidence }) => evidence));
  const [chosen] = found.filter(({ evidence }) => evidence >= AS_GOOD * most).sort((a, b) => b.shared - a.shared);
  // A skew of exactly 0 would be looked for anew.
  const skew = chosen?.line.skew || Number.MIN_VALUE;
  const best = chosen && (lineAt(chosen.line.start, { most: MEASURING, skew }));
  if (chosen === undefined || best === undefined || best.scatter > MOST_SCATTER) return { found: false };
  const rival = found.find((other) => isRival(other, chosen))?.line;
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
  /** Seconds the recording and the backing have in common there. */
  readonly shared: number;
  /** What speaks for it: that of a window on average, times the seconds in common. */
  readonly evidence: number;
}

function isRival(other: Candidate, chosen: Candidate): boolean {
  return (
    Math.abs(other.line.start - chosen.line.start) > APART &&
    other.shared >= RIVAL_SHARED * chosen.shared &&
    other.evidence >= RIVAL_SHARE * chosen.evidence
  );
}
