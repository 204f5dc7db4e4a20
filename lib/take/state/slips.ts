import { PLACE_TAKEN } from "./chances.js";
import type { Displacements } from "./displacements.js";
import { type Played, SPEAKS_AGAINST } from "./evidence.js";
import { BACK, firstAtOrAfter, type Guide, STEP } from "./guide.js";
import { hypothesesOf, type LandingHypothesis, smoothed } from "./landingHypotheses.js";
import { wanderPerMs } from "./noise.js";
import { LEAST_MOTOR_MS, type PairingTerms, RUNAWAY } from "./pairing.js";
import {
  ALONE_BEATS,
  addUntil,
  LEFT_OUT,
  land,
  MOVED_HERE,
  moveOn,
  NEVER,
  SAME_MS,
  SLIPS,
  type Standing,
  shiftOf,
  TAIL_VARIANCE,
  timeOf,
  type Watched,
} from "./slipMoves.js";
import { copyRow, createSlipRows, heaviestOf, leastOf, mergeLast, pruneRows, ROWS } from "./slipRows.js";
import { advance, begin, expectedOf, letGo, observe, takeBack, takeUp, turnBack, varianceOf } from "./space.js";
import { createTree } from "./tree.js";

export interface Tracked {
  /** Per silence; empty for those not suspect. */
  readonly landings: readonly (readonly LandingHypothesis[])[];
  /** The likeliest path: per place the onset (-1: left out) and the displacement (-1: jumped over). */
  readonly onsets: Int32Array;
  readonly places: Int32Array;
  readonly logLikelihood: number;
}

export interface TrackingTerms extends PairingTerms {
  readonly displacements: Displacements;
  readonly silences: readonly Watched[];
  /** The pairing that is followed where nothing is suspect. */
  readonly follow: Int32Array;
}

// Heavy tails: one note in 33 has four times the deviation (our choice: t3 noise and stray notes both look about like that).
const TAIL = 0.03;
// A pair further off than this many standard deviations of the tail is no candidate.
const GATE = 4;
// After the first of a run of notes left out, the next is left out with this chance, since who stops is one event; and so is the run's end.
const LOG_STAYS_OUT = Math.log(0.4);
const LOG_COMES_IN = Math.log(0.6);
const ALONE = 0.03;
const MOVED = 0.03;
// Chance that a note leads in to a landing that is off alone: it falls where the landing is due, and has a pitch of its own.
const LEADS_IN = 0.005;
// The standard deviation of a landing that is off with the player, in beats.
const MOVED_BEATS = 0.25;
// Chance that a take does not start where it says, by as much as players slip (our choice: a zero set by hand, or an untold latency); told apart
// from the start in place before the first silence, or else given up when it is less likely than this, so that it costs no time.
const LOG_STARTS_ELSEWHERE = Math.log(0.05);
const GIVEN_UP = 5;

/**
 * Follows a take with the place in the music as a hidden discrete state (a switching state space; forward sums over hypotheses). It finds
 * where a player slips in a silence or at its landing, how far, and when the player is back.
 *
 * All rows advance in real time: a row displaced by d meets note i at its time plus d. So at any moment all rows have explained the same
 * onsets, and rows that have skipped or waited can be compared. Notes jumped over do not count as left out.
 */
export function trackSlips(guide: Guide, played: Played, terms: TrackingTerms): Tracked {
  const { noise, prior, missing, displacements, silences, follow } = terms;
  const { expected, beatMs } = guide;
  const tree = createTree();
  let next = createSlipRows();
  const motor = Math.max(LEAST_MOTOR_MS, noise.motor) ** 2;
  const clockPerMs = noise.clock ** 2 / beatMs;
  const wander = wanderPerMs(noise, beatMs);
  const logMissing = Math.log(missing);
  const logOpenMissing = Math.log1p(-PLACE_TAKEN);
  const logOpenThere = Math.log(PLACE_TAKEN) - 0.5 * Math.log(2 * Math.PI);
  const logThere = Math.log1p(-missing) - 0.5 * Math.log(2 * Math.PI);
  const logAnywhere = Math.log((1 - missing) / (2 * ALONE_BEATS * beatMs));
  const landings: LandingHypothesis[][] = silences.map(() => []);
  const silenceOf = new Int32Array(expected.length).fill(-1);
  silences.forEach(({ landing }, k) => {
    if (landing >= 0) silenceOf[landing] = k;
  });
  const hazard = silences.map(({ from, to }) => {
    const notes = firstAtOrAfter(expected, to + 0.5) - firstAtOrAfter(expected, from);
    return Math.log(SLIPS / Math.max(1, notes));
  });
  const t: Standing = {
    rows: createSlipRows(),
    best: 0,
    open: -1,
    free: false,
    silences,
    displacements,
    expected,
    played,
    silenceOf,
    hazard,
    motor,
    clockPerMs,
    beatMs,
  };
  begin(t.rows.belief[0]!, prior, noise);
  t.rows.now[0] = t.rows.metAt[0] = guide.at[0] ?? 0;
  t.rows.landed[0] = t.rows.node[0] = t.rows.lone[0] = -1;
  t.rows.logLone[0] = t.rows.heardAt[0] = Number.NEGATIVE_INFINITY;
  for (t.rows.count = 1; t.rows.count <= displacements.slips.length; t.rows.count++) {
    const { logShare } = displacements.slips[t.rows.count - 1]!;
    copyRow(t.rows, 0, t.rows, t.rows.count);
    t.rows.place[t.rows.count] = displacements.after(0, t.rows.count - 1);
    t.rows.logWeight[t.rows.count] = LOG_STARTS_ELSEWHERE + logShare;
  }

  function catchUp(r: number, now: number): void {
    const gap = now - t.rows.now[r]!;
    if (gap <= 0) return;
    advance(t.rows.belief[r]!, gap, clockPerMs * gap, t.free ? wander : undefined);
    t.rows.now[r] = now;
  }

  /** A copy of a row in the rows to come; -1 when there is no room. */
  function propose(r: number, logWeight: number): number {
    if (next.count === ROWS) {
      const least = leastOf(next, -1);
      if (next.logWeight[least]! >= logWeight) return -1;
      copyRow(t.rows, r, next, least);
      next.logWeight[least] = logWeight;
      return least;
    }
    const slot = next.count++;
    copyRow(t.rows, r, next, slot);
    next.logWeight[slot] = logWeight;
    return slot;
  }

  function pair(
    r: number,
    note: number,
    k: number,
    { z, variance, log }: { z: number; variance: number; log: number },
  ): void {
    const now = expected[note]! + shiftOf(t, r);
    const e = played.at[k]! - now - z;
    const v = variance + motor;
    const wide = variance + TAIL_VARIANCE * motor;
    const narrowDensity = ((1 - TAIL) * Math.exp((-0.5 * e * e) / v)) / Math.sqrt(v);
    const wideDensity = (TAIL * Math.exp((-0.5 * e * e) / wide)) / Math.sqrt(wide);
    // A pairing that is followed may lie so far off that its density is 0 to the computer; its row goes on.
    const density = Math.max(Number.MIN_VALUE, narrowDensity + wideDensity);
    const gain = log + Math.log(density) + (played.evidence?.(note, k) ?? 0) - played.logAdded[k]!;
    const slot = propose(r, t.rows.logWeight[r]! + gain);
    if (slot < 0) return;
    addUntil(t, next, slot, k);
    next.onset[slot] = k + 1;
    next.note[slot] = note + 1;
    next.left[slot] = 0;
    next.metAt[slot] = now;
    next.heardAt[slot] = now;
    next.heardLate[slot] = played.at[k]! - now;
    next.gain[slot] = gain;
    next.node[slot] = tree.add(t.rows.node[r]!, note, k, t.rows.place[r]!);
    land(t, next, slot, { note, onset: k });
    const tail = wideDensity / density;
    observe(next.belief[slot]!, played.at[k]! - now, motor / (1 - tail + tail / TAIL_VARIANCE));
    mergeLast(next);
  }

  function leaveOut(r: number, note: number): void {
    const unwritten = guide.source[note]! < 0;
    const cost = unwritten
      ? t.rows.place[r] === 0
        ? logOpenMissing
        : 0
      : t.rows.left[r] === LEFT_OUT
        ? LOG_STAYS_OUT
        : logMissing;
    const slot = propose(r, t.rows.logWeight[r]! + cost);
    if (slot < 0) return;
    next.note[slot] = note + 1;
    if (!unwritten) next.left[slot] = LEFT_OUT;
    next.metAt[slot] = expected[note]! + shiftOf(t, r);
    next.node[slot] = tree.add(t.rows.node[r]!, note, -1, t.rows.place[r]!);
    land(t, next, slot, { note, onset: -1 });
    mergeLast(next);
  }

  function meet(r: number, now: number, followOnly: boolean): void {
    catchUp(r, now);
    const note = t.rows.note[r]!;
    const belief = t.rows.belief[r]!;
    const z = expectedOf(belief);
    const variance = varianceOf(belief);
    const arrived = t.rows.left[r] === MOVED_HERE;
    const comesIn = t.rows.left[r] === LEFT_OUT ? LOG_COMES_IN : 0;
    const there = guide.source[note]! < 0 ? logOpenThere : logThere + comesIn;
    const isLanding = silenceOf[note]! >= 0 && silences[silenceOf[note]!]!.suspect;
    const centre = expected[note]! + shiftOf(t, r) + z;
    if (followOnly) {
      const k = follow[note]!;
      if (k >= t.rows.onset[r]!) pair(r, note, k, { z, variance, log: there });
      else leaveOut(r, note);
      return;
    }
    if (!arrived || guide.source[note]! < 0) leaveOut(r, note);
    // What is played in open bars has no place to be displaced from.
    if (guide.source[note]! < 0 && t.rows.place[r] !== 0) return;
    const reach = GATE * Math.sqrt(variance + TAIL_VARIANCE * motor);
    const movedVariance = variance + (MOVED_BEATS * beatMs) ** 2;
    const far = isLanding ? Math.max(reach, 3 * Math.sqrt(movedVariance)) : reach;
    for (let k = t.rows.onset[r]!; k < played.at.length && played.at[k]! < centre + far; k++) {
      const off = played.at[k]! - centre;
      if (off < -far) continue;
      if (Math.abs(off) < reach) pair(r, note, k, { z, variance, log: there });
      if (isLanding) pair(r, note, k, { z, variance: movedVariance, log: there + Math.log(MOVED) });
    }
  }

  function close(silence: number): void {
    if (silences[silence]!.suspect) {
      const { landing } = silences[silence]!;
      landings[silence] = hypothesesOf(t.rows, silence, (onset) => {
        if (onset < 0) return logAnywhere + Math.log(ALONE) - logMissing;
        const evidence = played.evidence?.(landing, onset) ?? 0;
        return evidence < SPEAKS_AGAINST ? logAnywhere + Math.log(LEADS_IN) - evidence : Number.NEGATIVE_INFINITY;
      });
    }
    for (let r = 0; r < t.rows.count; r++) {
      if (t.rows.landed[r] === silence) {
        t.rows.landed[r] = -1;
        t.rows.landing[r] = t.rows.landingPlace[r] = 0;
      }
      t.rows.placeBefore[r] = 0;
      t.rows.lone[r] = -1;
      t.rows.logLone[r] = Number.NEGATIVE_INFINITY;
    }
    mergeAll();
  }

  /** Rows that tell the same story are added up; those for which it does not hold are given up. */
  function mergeAll(holds: (row: number) => boolean = () => true): void {
    next.count = 0;
    for (let r = 0; r < t.rows.count; r++) {
      if (!holds(r)) continue;
      copyRow(t.rows, r, next, next.count++);
      mergeLast(next);
    }
    [t.rows, next] = [next, t.rows];
  }

  function startSilence(silence: number): void {
    // Before the first silence, starts elsewhere that are unlikely by then are given up.
    const least = t.rows.logWeight[heaviestOf(t.rows)]! - GIVEN_UP;
    if (silence === 0) mergeAll((r) => t.rows.place[r] === 0 || t.rows.logWeight[r]! > least);
    t.open = silence;
    const { suspect } = silences[silence]!;
    const steady = t.rows.count;
    for (let r = 0; r < steady; r++) {
      t.rows.placeBefore[r] = t.rows.place[r]!;
      // Who still hears something keeps to its tempo.
      if (!t.free) continue;
      letGo(t.rows.belief[r]!, noise.bias ** 2);
      if (!suspect || t.rows.count === ROWS) continue;
      copyRow(t.rows, r, t.rows, t.rows.count);
      letGo(t.rows.belief[t.rows.count]!, RUNAWAY.variance);
      t.rows.wide[t.rows.count] = 1;
      t.rows.logWeight[t.rows.count]! += RUNAWAY.logChance;
      t.rows.count++;
    }
    for (let r = 0, count = t.rows.count; suspect && r < count; r++) moveOn(t, r, silences[silence]!.from);
  }

  const closings = silences.map(({ closes }) => closes);
  let step = 0;
  let closing = 0;
  for (;;) {
    while (step < guide.kind.length && !SHARED.has(guide.kind[step]!)) step++;
    const common = Math.min(step < guide.kind.length ? guide.at[step]! : NEVER, closings[closing] ?? NEVER);
    let notes = NEVER;
    for (let r = 0; r < t.rows.count; r++) notes = Math.min(notes, timeOf(t, r));
    if (common === NEVER && notes === NEVER) break;
    if (notes <= common + SAME_MS && notes < NEVER) {
      const inPlace = !silences[t.open]?.suspect && !t.rows.place.subarray(0, t.rows.count).some(Boolean);
      if (inPlace) {
        copyRow(t.rows, heaviestOf(t.rows), t.rows, 0);
        t.rows.count = 1;
      }
      next.count = 0;
      for (let r = 0; r < t.rows.count; r++) if (timeOf(t, r) > notes + SAME_MS) copyRow(t.rows, r, next, next.count++);
      for (let r = 0; r < t.rows.count; r++) if (timeOf(t, r) <= notes + SAME_MS) meet(r, notes, inPlace);
      [t.rows, next] = [next, t.rows];
      t.best = pruneRows(t.rows, notes);
      if (inPlace) continue;
      for (let r = 0, count = t.rows.count; r < count; r++)
        if (Math.abs(t.rows.metAt[r]! - notes) < SAME_MS) moveOn(t, r, notes);
      continue;
    }
    for (let r = 0; r < t.rows.count; r++) catchUp(r, common);
    if ((closings[closing] ?? NEVER) <= common) {
      close(closing);
      if (t.open === closing) t.open = -1;
      closing++;
      continue;
    }
    switch (guide.kind[step]) {
      case STEP.silenceStarts:
        t.free = true;
        break;
      case STEP.markStarts:
        startSilence(guide.index[step]!);
        break;
      case STEP.silenceEnds:
        t.free = false;
        for (let r = 0; r < t.rows.count; r++) {
          takeUp(t.rows.belief[r]!);
          t.rows.wide[r] = 0;
        }
        mergeAll();
        break;
      default:
        for (let r = 0; r < t.rows.count; r++) {
          const heard = Math.abs(t.rows.heardAt[r]! - common) < SAME_MS;
          if (guide.index[step] === BACK) turnBack(t.rows.belief[r]!);
          else takeBack(t.rows.belief[r]!, noise.correction, heard ? t.rows.heardLate[r]! : Number.NaN);
        }
    }
    step++;
  }
  while (closing < silences.length) close(closing++);

  const best = heaviestOf(t.rows);
  const onsets = new Int32Array(expected.length).fill(-1);
  const places = new Int32Array(expected.length).fill(-1);
  for (let node = t.rows.node[best]!; node >= 0; node = tree.parent(node)) {
    onsets[tree.note(node)] = tree.onset(node);
    places[tree.note(node)] = tree.place(node);
  }
  return { landings: smoothed(landings), onsets, places, logLikelihood: t.rows.logWeight[best]! };
}

/** Kinds of steps that all rows take together. Each row meets notes at its own time. At one instant a silence starts before its mark. */
const SHARED: ReadonlySet<number> = new Set([STEP.silenceStarts, STEP.silenceEnds, STEP.markStarts, STEP.beat]);
