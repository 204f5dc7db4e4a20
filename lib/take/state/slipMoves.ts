import type { Displacements } from "./displacements.js";
import type { Played } from "./evidence.js";
import { copyRow, leastOf, logSum, mergeLast, ROWS, type SlipRows } from "./slipRows.js";
import { expectedOf, varianceOf } from "./space.js";

/** A silence as the tracker looks at it. Milliseconds from bar 1. */
export interface Watched {
  readonly from: number;
  readonly to: number;
  /** The note expected at the landing, as an index of the guide's places; -1 when there is none. */
  readonly landing: number;
  /** When the tracker makes up its mind about it: some beats after the return, or where the next silence starts. */
  readonly closes: number;
  /** Whether slips are looked for in it. */
  readonly suspect: boolean;
}

/** Where the tracker stands in a take, and what it goes by. */
export interface Standing {
  rows: SlipRows;
  /** Natural logarithm of the weight of the likeliest row when rows were last compared. */
  best: number;
  /** The silence that is open: from its start until the tracker makes up its mind; -1 when none is. */
  open: number;
  /** Whether time runs free: nothing sounds. */
  free: boolean;
  readonly silences: readonly Watched[];
  readonly displacements: Displacements;
  readonly expected: Float64Array;
  readonly played: Played;
  /** Per note, the silence whose landing it is, or -1. */
  readonly silenceOf: Int32Array;
  /** Per silence, the logarithm of the chance of a slip at each of its notes. */
  readonly hazard: readonly number[];
  readonly motor: number;
  readonly clockPerMs: number;
  readonly beatMs: number;
}

// Chance of a slip in a silence, spread over its notes, and as much again at the landing; chance that only the landing note is off, and that the
// player is off there and finds back by correction. Our choice.
export const SLIPS = 0.05;
// A move to a place that would be so much less likely than the best row is none that one or two notes could make up for (natural logarithm; our choice).
const HOPELESS = 16;
// A move is tried where the next onset is within so many.
const MOVE_GATE = 2.5;
// Who is displaced finds back after so many beats of accompaniment on average; in silence as rarely as one slips.
const BACK_BEATS = 4;
// So many beats after the return a player who left the landing out may still come in displaced.
const COMES_IN_BEATS = 4;
export const TAIL_VARIANCE = 16;
export const SAME_MS = 1e-3;
// What became of a row's last note: left out, or none yet since the row came to another displacement, where its first note must be played.
export const LEFT_OUT = 1;
export const MOVED_HERE = 2;

// How far a landing note that is off alone may be, in beats.
export const ALONE_BEATS = 1;

export const NEVER: number = Number.POSITIVE_INFINITY;

// What became of a landing that has no onset: left out, and nothing played since; or left out, and since come in.
const NOT_PLAYED = -1;
const CAME_IN = -2;

export const shiftOf = (t: Standing, r: number): number => t.displacements.ms[t.rows.place[r]!]!;

/** When a row meets its next note. */
export const timeOf = (t: Standing, r: number): number =>
  t.rows.note[r]! < t.expected.length ? t.expected[t.rows.note[r]!]! + shiftOf(t, r) : NEVER;

/** After a note, or where a silence starts: ways of going on elsewhere, each with its next note soon enough to be heard. */
export function moveOn(t: Standing, r: number, now: number): void {
  if (t.rows.left[r] === MOVED_HERE) return;
  const place = t.rows.place[r]!;
  const silence = t.open < 0 ? undefined : t.silences[t.open]!;
  if (silence?.suspect && now > silence.from - SAME_MS) {
    const late =
      t.rows.landed[r] === t.open && t.rows.landing[r] === NOT_PLAYED && now < silence.to + COMES_IN_BEATS * t.beatMs;
    const due = timeOf(t, r);
    if (due <= silence.to + SAME_MS || t.rows.note[r] === silence.landing || late) {
      const chance = due >= silence.to - SAME_MS ? Math.log(SLIPS) : t.hazard[t.open]!;
      const { slips } = t.displacements;
      const least = t.best - HOPELESS - t.rows.logWeight[r]! - chance;
      for (let slip = 0; slip < slips.length; slip++) {
        const { logShare } = slips[slip]!;
        if (logShare < least) continue;
        const other = t.displacements.after(place, slip);
        if (other > 0) move(t, r, { place: other, logChance: chance + logShare, now });
      }
    }
  }
  if (place === 0) return;
  const gap = Math.min(timeOf(t, r) - now, BACK_BEATS * t.beatMs);
  const stays = t.free ? Math.log1p(-SLIPS) : -gap / (BACK_BEATS * t.beatMs);
  move(t, r, { place: 0, logChance: Math.log(-Math.expm1(stays)), now });
  t.rows.logWeight[r]! += stays;
}

/** The row also goes on at another displacement, where an onset is near enough to be its next note. */
function move(
  t: Standing,
  r: number,
  { place, logChance, now }: { place: number; logChance: number; now: number },
): void {
  const shift = t.displacements.ms[place]!;
  const belief = t.rows.belief[r]!;
  let note = t.rows.note[r]!;
  while (note < t.expected.length && t.expected[note]! + shift < now + SAME_MS) note++;
  if (note === t.expected.length) return;
  const due = t.expected[note]! + shift + expectedOf(belief);
  const wait = t.expected[note]! + shift - now;
  const reach = MOVE_GATE * Math.sqrt(varianceOf(belief) + t.clockPerMs * wait + TAIL_VARIANCE * t.motor);
  let near = t.rows.onset[r]!;
  while (near < t.played.at.length && t.played.at[near]! < due - reach) near++;
  if (near >= t.played.at.length || t.played.at[near]! > due + reach) return;
  const slot = roomFor(t, t.rows.logWeight[r]! + logChance, r);
  if (slot < 0) return;
  copyRow(t.rows, r, t.rows, slot);
  t.rows.logWeight[slot]! += logChance;
  for (let jumped = t.rows.note[r]!; jumped < note; jumped++) {
    if (t.silenceOf[jumped]! < 0) continue;
    t.rows.landed[slot] = t.silenceOf[jumped]!;
    t.rows.landing[slot] = NOT_PLAYED;
    // Who comes back over the landing was away at it.
    t.rows.landingPlace[slot] = place === 0 ? t.rows.place[r]! : place;
  }
  // Who has left the landing out, and not come in yet, was at it where he comes in.
  const leftOut = t.open >= 0 && t.rows.landed[slot] === t.open && t.rows.landing[slot] === NOT_PLAYED;
  if (leftOut && t.rows.landingPlace[slot] === t.rows.placeBefore[slot]) t.rows.landingPlace[slot] = place;
  t.rows.note[slot] = note;
  t.rows.place[slot] = place;
  t.rows.left[slot] = MOVED_HERE;
  if (slot === t.rows.count - 1) mergeLast(t.rows);
}

/** A place for one more row of this weight; -1 when there is none. */
function roomFor(t: Standing, logWeight: number, keep: number): number {
  if (t.rows.count < ROWS) return t.rows.count++;
  const least = leastOf(t.rows, keep);
  return t.rows.logWeight[least]! < logWeight ? least : -1;
}

/** Onsets from the row's first to `until` are additions; those near the landing may be its note, off alone. */
export function addUntil(t: Standing, rows: SlipRows, slot: number, until: number): void {
  const k = rows.onset[slot]!;
  rows.onset[slot] = Math.max(k, until);
  if (t.open < 0 || !t.silences[t.open]!.suspect || t.silences[t.open]!.landing < 0) return;
  // Once the landing has been met, its note alone is off from where the player was then.
  const place = rows.landed[slot] === t.open ? rows.landingPlace[slot]! : rows.place[slot]!;
  const due = t.expected[t.silences[t.open]!.landing]! + t.displacements.ms[place]! + expectedOf(rows.belief[slot]!);
  for (let onset = k; onset < until; onset++) {
    if (Math.abs(t.played.at[onset]! - due) > ALONE_BEATS * t.beatMs) continue;
    const evidence = t.played.evidence?.(t.silences[t.open]!.landing, onset) ?? 0;
    const weight = evidence - t.played.logAdded[onset]!;
    if (rows.lone[slot]! < 0 || weight > loneWeight(t, rows.lone[slot]!)) rows.lone[slot] = onset;
    rows.logLone[slot] = logSum(rows.logLone[slot]!, weight);
  }
}

const loneWeight = (t: Standing, onset: number): number =>
  (t.played.evidence?.(t.silences[t.open]!.landing, onset) ?? 0) - t.played.logAdded[onset]!;

/** What became of a note matters when it is a landing, or the first after one that was left out. */
export function land(
  t: Standing,
  rows: SlipRows,
  slot: number,
  { note, onset }: { readonly note: number; readonly onset: number },
): void {
  const silence = t.silenceOf[note]!;
  if (silence >= 0) {
    rows.landed[slot] = silence;
    rows.landing[slot] = onset;
    rows.landingPlace[slot] = rows.place[slot]!;
  } else if (onset >= 0 && t.open >= 0 && rows.landed[slot] === t.open && rows.landing[slot] === NOT_PLAYED) {
    // Who left the landing out is where the first note after it shows him to be, when it comes soon: unless a slip in the silence has shown it already.
    rows.landing[slot] = CAME_IN;
    const slipped = rows.landingPlace[slot] !== rows.placeBefore[slot];
    const at = t.expected[note]! + t.displacements.ms[rows.place[slot]!]!;
    if (!slipped && at < t.silences[t.open]!.to + COMES_IN_BEATS * t.beatMs)
      rows.landingPlace[slot] = rows.place[slot]!;
  }
}
