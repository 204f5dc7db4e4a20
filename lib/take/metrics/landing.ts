import { LANDING_WITHIN_BEATS } from "../../base/index.js";
import type { DropoutFinding, Score, Unmeasured } from "../../schema/index.js";
import type { PlayedOnsets } from "../onsets.js";
import { unmeasured } from "../say.js";
import type { Offset } from "../state/fit.js";
import { firstAtOrAfter } from "../state/guide.js";
import type { LandingHypothesis } from "../state/landingHypotheses.js";
import type { TrackedReading } from "../state/landings.js";
import { type Belief, probabilityWithin } from "./drift.js";
import { normalWithin } from "./normal.js";

type Slip = NonNullable<DropoutFinding["slip"]>;

/** What became of one landing. Milliseconds. */
export interface Landing {
  /** Where the landing note fell, the player's offset taken off; or that it was left out; or why it is not known. */
  readonly note: { readonly ms: number; readonly standardErrorMs: number } | { readonly leftOut: true } | Unmeasured;
  /** Displacement that the drift has from a slip in this silence or at its landing, ms; 0 without one. */
  readonly shiftMs: number;
  /** The slip that is in the drift. */
  readonly slip: Slip | null;
  /** The likeliest slip, however unlikely, and the likeliest displacement at the landing, in beats. */
  readonly likeliest: Slip | null;
  readonly awayBeats: number;
  /** Probability that the player slipped in this silence or at its landing; that he was displaced at it, from before too. */
  readonly slipped: number;
  readonly away: number;
  /** Probability that the landing was left out by a player in place. */
  readonly leftOut: number;
  /** Probability that only the landing note was off. */
  readonly alone: number;
}

/** How likely drift and landing both lie inside, and how likely that cannot be known because the landing was left out. */
export interface Inside {
  readonly inside: number;
  readonly undecided: number;
}

// A slip is told, and enters the drift, when it is this likely and the landing was heard there, or as good as certain (our choice).
const TOLD = 0.5;
const CERTAIN = 0.9;
const CLEARLY = 4;

/** What became of every landing; `null` where there is none: no return, or no note expected soon enough. */
export function landingsIn(
  score: Score,
  tracked: TrackedReading,
  { played, offset }: { readonly played: PlayedOnsets; readonly offset: Offset },
): (Landing | null)[] {
  return tracked.landingNotes.map((landing, k) =>
    landing < 0 ? null : landingFrom(tracked, k, { played, offset, due: 1000 * score.expected[landing]!.at }),
  );
}

function landingFrom(
  tracked: TrackedReading,
  k: number,
  { played, offset, due }: { readonly played: PlayedOnsets; readonly offset: Offset; readonly due: number },
): Landing {
  const { reading, displacements, places } = tracked;
  const { guide } = reading;
  const told = tracked.hypotheses[k]!;
  const sum = (counts: (one: LandingHypothesis) => boolean): number =>
    told.reduce((total, one) => total + (counts(one) ? one.weight : 0), 0);
  const [[onset, certainty]] = likeliestFirst(told, (one) => one.onset);
  const note =
    certainty < TOLD
      ? unmeasured("take.unmeasured.landing-unknown")
      : onset < 0
        ? ({ leftOut: true } as const)
        : { ms: played.at[onset]! - due - offset.mean, standardErrorMs: offset.sd };
  const byShift = likeliestFirst(told, ({ before, at }) => displacements.ms[at]! - displacements.ms[before]!);
  const [[shift, weight]] = byShift;
  const { to } = guide.stretches[k]!;
  const awayMs = displacements.ms[told.reduce((best, one) => (one.weight > best.weight ? one : best)).at]!;
  // A displacement is not told where the landing was heard nearer to another.
  const heardAt = (ms: number, than: number): boolean =>
    !("ms" in note) || Math.abs(note.ms - ms) < Math.abs(note.ms - than);
  // Where it was not heard, no slip is sure that is not far larger than the deviation of single notes: very unsteady players come near it by chance.
  const { clock, motor } = reading.fit.points[0].noise;
  const clear = (): boolean =>
    Math.abs(shift) > CLEARLY * Math.hypot(clock, motor) &&
    weight >= CERTAIN &&
    places !== undefined &&
    Math.abs(shiftAlong(displacements.ms, places, reading, k) - shift) < 1;
  const sure = shift !== 0 && weight >= TOLD && heardAt(awayMs, awayMs - shift) && ("ms" in note || clear());
  const tell = (by: number): Slip => slipFrom(by, k, tracked);
  const other = byShift.find(([by]) => by !== 0);
  return {
    note,
    shiftMs: sure ? shift : 0,
    slip: sure ? tell(shift) : null,
    likeliest: other === undefined ? null : tell(other[0]),
    awayBeats: heardAt(awayMs, 0) ? awayMs / guide.beatMsAt(to) : 0,
    slipped: sum((one) => one.at !== one.before),
    away: sum(({ at }) => at !== 0),
    leftOut: sum((one) => one.onset < 0 && one.at === 0),
    alone: sum((one) => one.alone),
  };
}

/** The values that hypotheses give to something, each with its probability. */
function likeliestFirst(
  told: readonly LandingHypothesis[],
  of: (one: LandingHypothesis) => number,
): [[value: number, weight: number], ...[value: number, weight: number][]] {
  const weights = new Map<number, number>();
  for (const one of told) weights.set(of(one), (weights.get(of(one)) ?? 0) + one.weight);
  return [...weights].sort((a, b) => b[1] - a[1]) as [[number, number]];
}

/** Change of the displacement over a stretch on the likeliest path: from the last note played before it to the first played from its end on. */
function shiftAlong(
  ms: readonly number[],
  places: Int32Array,
  { guide, asynchrony }: TrackedReading["reading"],
  k: number,
): number {
  const { from, to } = guide.stretches[k]!;
  let before = 0;
  let at = 0;
  for (let place = 0; place < places.length; place++) {
    if (Number.isNaN(asynchrony[place]!)) continue;
    at = ms[places[place]!]!;
    if (guide.expected[place]! - at < from - 0.5) before = at;
    if (guide.expected[place]! - at >= to - 0.5) break;
  }
  return at - before;
}

/** A slip of some size in beats. Where the tempo rises, sizes are those of several tempi: one that is nearly halves or thirds of beats is that many. */
function slipBeats(beats: number): number {
  const sixths = Math.round(6 * beats) / 6;
  const near = Math.abs(sixths - beats) < NEARLY_BEATS ? sixths : beats;
  return Math.round(1000 * near) / 1000;
}

/** Far below the smallest difference of two slips that are looked for, a sixth of a beat, and above that of neighbouring tempi (our choice). */
const NEARLY_BEATS = 0.06;

function slipFrom(
  shift: number,
  k: number,
  { reading: { guide }, places, displacements }: Pick<TrackedReading, "reading" | "places" | "displacements">,
): Slip {
  const { from, to } = guide.stretches[k]!;
  const until = guide.stretches[k + 1]?.from ?? Number.POSITIVE_INFINITY;
  const beats = slipBeats(shift / guide.beatMsAt(from));
  let began: number | undefined;
  let ended: number | undefined;
  for (let place = 0; places !== undefined && place < places.length; place++) {
    const shift = displacements.ms[places[place]!]!;
    const at = guide.expected[place]! - shift;
    if (at < from || at >= until) continue;
    const away = shift !== 0;
    if (away && began === undefined) began = at;
    if (!away && began !== undefined && ended === undefined && at > to) ended = at;
  }
  const seconds = (ms: number): number => Math.round(ms) / 1000;
  return { beats, from: seconds(began ?? to), takenBack: ended === undefined ? null : seconds(ended) };
}

/** Probability that drift and landing lie inside their limits, over the ways the landing may have gone. */
export function insideOf(
  score: Score,
  { reading, displacements, landingNotes, hypotheses }: TrackedReading,
  k: number,
  {
    belief,
    landing,
    played,
    offset,
    limits: { driftMs, landingMs },
    avoids,
  }: {
    readonly belief: Belief;
    readonly landing: Landing | null;
    readonly played: PlayedOnsets;
    readonly offset: Offset;
    /** Infinity where there is no limit. */
    readonly limits: { readonly driftMs: number; readonly landingMs: number };
    /** Probability that this player leaves out landings rather than notes. */
    readonly avoids: number;
  },
): Inside {
  const driftInside = (shift: number): number =>
    probabilityWithin(
      { ...belief, parts: belief.parts.map((part) => ({ ...part, mean: part.mean + shift })) },
      driftMs,
    );
  const told = hypotheses[k]!;
  if (landing === null) return { inside: driftInside(0), undecided: 0 };
  const due = 1000 * score.expected[landingNotes[k]!]!.at;
  const motor = reading.fit.points[0].noise.motor;
  let inside = 0;
  let undecided = 0;
  for (const { weight, before, at, onset } of told) {
    const drift = driftInside(displacements.ms[at]! - displacements.ms[before]!);
    if (onset >= 0) {
      const off = played.at[onset]! - due - offset.mean;
      inside += weight * drift * normalWithin(landingMs, off, offset.sd);
    } else if (at === 0) {
      // Left out by a player in place: inside as far as the notes on both sides and chance omissions make it likely.
      const near = normalWithin(landingMs, belief.mean, Math.hypot(belief.sd, motor));
      inside += weight * drift * near * (1 - avoids);
      undecided += weight * drift * near * avoids;
    } else if (Math.abs(displacements.ms[at]!) <= landingMs) inside += weight * drift;
  }
  return { inside, undecided };
}

/** Beats after the return until two notes in a row lie inside the limit, or why that is not known. */
export function recoveryAfter(
  { reading: { guide, asynchrony }, places, displacements }: TrackedReading,
  k: number,
  { offset, limitMs }: { readonly offset: Offset; readonly limitMs: number },
): number | Unmeasured {
  const { to } = guide.stretches[k]!;
  const next = guide.stretches[k + 1]?.from ?? Number.POSITIVE_INFINITY;
  let back: number | undefined;
  let heard = 0;
  let run = 0;
  for (let place = firstAtOrAfter(guide.expected, to - 0.5); place < guide.expected.length; place++) {
    const at = guide.expected[place]!;
    if (at >= next) break;
    const off = asynchrony[place]! + (places === undefined ? 0 : displacements.ms[places[place]!]!) - offset.mean;
    if (Number.isNaN(off)) continue;
    if (heard === 0 && at > to + LANDING_WITHIN_BEATS * guide.beatMsAt(to)) break;
    heard++;
    const inside = Math.abs(off) <= limitMs;
    if (inside && run === 0) back = at;
    run = inside ? run + 1 : 0;
    if (run === BACK) break;
  }
  if (heard === 0) return unmeasured("take.unmeasured.not-back-soon", { beats: LANDING_WITHIN_BEATS });
  if (back === undefined || run === 0) return unmeasured("take.unmeasured.not-back");
  return Math.max(0, (back - to) / guide.beatMsAt(to));
}

// So many notes inside in a row are "back" (our choice).
const BACK = 2;
