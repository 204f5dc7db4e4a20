import { PLACE_TAKEN } from "./chances.js";
import type { Displacements } from "./displacements.js";
import { firstAtOrAfter, type Guide, STEP } from "./guide.js";
import type { PairingTerms, Played } from "./pairing.js";
import { LEAST_MOTOR_MS, RUNAWAY } from "./pairing.js";
import { copyRow, createSlipRows, logSum, mergeLast, pruneRows, ROWS } from "./slipRows.js";
import { advance, begin, expectedOf, letGo, observe, takeBack, takeUp, varianceOf } from "./space.js";
import { createTree } from "./tree.js";

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

/** One way in which a landing may have gone. */
export interface LandingHypothesis {
  /** Probability; those of one silence add up to 1. */
  readonly weight: number;
  /** Displacements (indices) when the silence began and at the landing. */
  readonly before: number;
  readonly at: number;
  /** Displacement when the tracker made up its mind. */
  readonly after: number;
  /** The onset of the landing note, or -1 when it was left out. */
  readonly onset: number;
  /** Whether that note alone was off, the player being where he was. */
  readonly alone: boolean;
}

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

// Heavy tails: one note in 33 has four times the spread (our choice: t3 noise and stray notes both look about like that).
const TAIL = 0.03;
const TAIL_VARIANCE = 16;
// A pair further off than this many standard deviations of the tail is no candidate.
const GATE = 4;
// A move is tried where the next onset is within so many.
const MOVE_GATE = 2.5;
// After the first of a run of notes left out, the next is left out with this chance, since who stops is one event; and so is the run's end.
const LOG_STAYS_OUT = Math.log(0.4);
const LOG_COMES_IN = Math.log(0.6);
// Chance of a slip in a silence, spread over its notes, and as much again at the landing; chance that only the landing note is off, and that the
// player is off there and finds back by correction. Our choice.
const SLIPS = 0.05;
const ALONE = 0.03;
const MOVED = 0.03;
// How far a landing note that is off alone may be, and the spread of a landing that is off with the player, in beats.
const ALONE_BEATS = 1;
const MOVED_BEATS = 0.25;
// Who is displaced finds back after so many beats of accompaniment on average; in silence as rarely as one slips.
const BACK_BEATS = 4;
// So many beats after the return a player who left the landing out may still come in displaced.
const COMES_IN_BEATS = 4;
// Chance that a take does not start where it says, by as much as players slip (our choice: a zero set by hand, or an untold latency); told apart
// from the start in place before the first silence, or else given up when it is less likely than this, so that it costs no time.
const LOG_STARTS_ELSEWHERE = Math.log(0.05);
const GIVEN_UP = 5;
const SAME_MS = 1e-3;
// What became of a row's last note: left out, or none yet since the row came to another displacement, where its first note must be played.
const LEFT_OUT = 1;
const MOVED_HERE = 2;
const NEVER = Number.POSITIVE_INFINITY;

/**
 * Follows a take with the place in the music as a hidden discrete state: where a player slips in a silence or at its landing, how far, and when
 * he is back (a switching state space; the sum over readings, forwards).
 *
 * All rows are walked in real time: a row displaced by d meets note i at its time plus d, so that at any moment all rows have explained the
 * same onsets, and rows that have skipped or waited can be compared fairly. Notes jumped over were not left out.
 */
export function trackSlips(guide: Guide, played: Played, terms: TrackingTerms): Tracked {
  const { noise, prior, missing, displacements, silences, follow } = terms;
  const { expected, beatMs } = guide;
  const tree = createTree();
  let rows = createSlipRows();
  let next = createSlipRows();
  const motor = Math.max(LEAST_MOTOR_MS, noise.motor) ** 2;
  const clockPerMs = noise.clock ** 2 / beatMs;
  const logMissing = Math.log(missing);
  const logOpenMissing = Math.log1p(-PLACE_TAKEN);
  const logOpenThere = Math.log(PLACE_TAKEN) - 0.5 * Math.log(2 * Math.PI);
  const logThere = Math.log1p(-missing) - 0.5 * Math.log(2 * Math.PI);
  const logAlone = Math.log((ALONE * (1 - missing)) / (2 * ALONE_BEATS * beatMs)) - logMissing;
  const landings: LandingHypothesis[][] = silences.map(() => []);
  const silenceOf = new Int32Array(expected.length).fill(-1);
  silences.forEach(({ landing }, k) => {
    if (landing >= 0) silenceOf[landing] = k;
  });
  const hazard = silences.map(({ from, to }) => {
    const notes = firstAtOrAfter(expected, to + 0.5) - firstAtOrAfter(expected, from);
    return Math.log(SLIPS / Math.max(1, notes));
  });
  const logHazard = Math.log(SLIPS);
  let free = false;
  /** The silence that is open: from its start until the tracker makes up its mind. */
  let open = -1;

  begin(rows.belief[0]!, prior, noise);
  rows.now[0] = rows.metAt[0] = guide.at[0] ?? 0;
  rows.landed[0] = rows.node[0] = rows.lone[0] = -1;
  rows.logLone[0] = rows.heardAt[0] = Number.NEGATIVE_INFINITY;
  for (rows.count = 1; rows.count <= displacements.slips.length; rows.count++) {
    const { by, logShare } = displacements.slips[rows.count - 1]!;
    copyRow(rows, 0, rows, rows.count);
    rows.place[rows.count] = displacements.placeAt(by);
    rows.logWeight[rows.count] = LOG_STARTS_ELSEWHERE + logShare;
  }

  const shiftOf = (r: number): number => displacements.ms[rows.place[r]!]!;
  const timeOf = (r: number): number =>
    rows.note[r]! < expected.length ? expected[rows.note[r]!]! + shiftOf(r) : NEVER;

  function catchUp(r: number, now: number): void {
    const gap = now - rows.now[r]!;
    if (gap <= 0) return;
    advance(rows.belief[r]!, gap, clockPerMs * gap, free);
    rows.now[r] = now;
  }

  /** A copy of a row in the rows to come; -1 when there is no room. */
  function propose(r: number, logWeight: number): number {
    if (next.count === ROWS) {
      let least = 0;
      for (let s = 1; s < ROWS; s++) if (next.logWeight[s]! < next.logWeight[least]!) least = s;
      if (next.logWeight[least]! >= logWeight) return -1;
      copyRow(rows, r, next, least);
      next.logWeight[least] = logWeight;
      return least;
    }
    const slot = next.count++;
    copyRow(rows, r, next, slot);
    next.logWeight[slot] = logWeight;
    return slot;
  }

  /** Onsets from the row's first to `until` are additions; those near the landing may be its note, off alone. */
  function addUntil(slot: number, until: number): void {
    const k = next.onset[slot]!;
    next.onset[slot] = Math.max(k, until);
    if (open < 0 || !silences[open]!.suspect || silences[open]!.landing < 0) return;
    const due =
      expected[silences[open]!.landing]! + displacements.ms[next.place[slot]!]! + expectedOf(next.belief[slot]!);
    for (let onset = k; onset < until; onset++) {
      if (Math.abs(played.at[onset]! - due) > ALONE_BEATS * beatMs) continue;
      const evidence = played.evidence?.(silences[open]!.landing, onset) ?? 0;
      const weight = evidence - played.logAdded[onset]!;
      if (next.lone[slot]! < 0 || weight > loneWeight(next.lone[slot]!)) next.lone[slot] = onset;
      next.logLone[slot] = logSum(next.logLone[slot]!, weight);
    }
  }

  const loneWeight = (onset: number): number =>
    (played.evidence?.(silences[open]!.landing, onset) ?? 0) - played.logAdded[onset]!;

  function land(slot: number, note: number, onset: number): void {
    const silence = silenceOf[note]!;
    if (silence >= 0) {
      next.landed[slot] = silence;
      next.landing[slot] = onset;
      next.landingPlace[slot] = next.place[slot]!;
    } else if (onset >= 0 && open >= 0 && next.landed[slot] === open && next.landing[slot]! < 0) {
      // Who left the landing out is where the next note shows him to be, when it comes soon.
      if (expected[note]! < silences[open]!.to + COMES_IN_BEATS * beatMs) next.landingPlace[slot] = next.place[slot]!;
    }
  }

  function pair(
    r: number,
    note: number,
    k: number,
    { z, variance, log }: { z: number; variance: number; log: number },
  ): void {
    const now = expected[note]! + shiftOf(r);
    const e = played.at[k]! - now - z;
    const v = variance + motor;
    const wide = variance + TAIL_VARIANCE * motor;
    const narrowDensity = ((1 - TAIL) * Math.exp((-0.5 * e * e) / v)) / Math.sqrt(v);
    const wideDensity = (TAIL * Math.exp((-0.5 * e * e) / wide)) / Math.sqrt(wide);
    const density = narrowDensity + wideDensity;
    if (!(density > 0)) return;
    const gain = log + Math.log(density) + (played.evidence?.(note, k) ?? 0) - played.logAdded[k]!;
    const slot = propose(r, rows.logWeight[r]! + gain);
    if (slot < 0) return;
    addUntil(slot, k);
    next.onset[slot] = k + 1;
    next.note[slot] = note + 1;
    next.left[slot] = 0;
    next.metAt[slot] = now;
    next.heardAt[slot] = now;
    next.heardLate[slot] = played.at[k]! - now;
    next.gain[slot] = gain;
    next.node[slot] = tree.add(rows.node[r]!, note, k, rows.place[r]!);
    land(slot, note, k);
    const tail = wideDensity / density;
    observe(next.belief[slot]!, played.at[k]! - now, motor / (1 - tail + tail / TAIL_VARIANCE));
    mergeInto();
  }

  /** The last proposed row becomes part of another that tells the same story. */
  function mergeInto(): void {
    mergeLast(next);
  }

  function leaveOut(r: number, note: number): void {
    const free = guide.source[note]! < 0;
    const cost = free
      ? rows.place[r] === 0
        ? logOpenMissing
        : 0
      : rows.left[r] === LEFT_OUT
        ? LOG_STAYS_OUT
        : logMissing;
    const slot = propose(r, rows.logWeight[r]! + cost);
    if (slot < 0) return;
    next.note[slot] = note + 1;
    if (!free) next.left[slot] = LEFT_OUT;
    next.metAt[slot] = expected[note]! + shiftOf(r);
    next.node[slot] = tree.add(rows.node[r]!, note, -1, rows.place[r]!);
    land(slot, note, -1);
    mergeInto();
  }

  function meet(r: number, now: number, followOnly: boolean): void {
    catchUp(r, now);
    const note = rows.note[r]!;
    const belief = rows.belief[r]!;
    const z = expectedOf(belief);
    const variance = varianceOf(belief);
    const arrived = rows.left[r] === MOVED_HERE;
    const comesIn = rows.left[r] === LEFT_OUT ? LOG_COMES_IN : 0;
    const there = guide.source[note]! < 0 ? logOpenThere : logThere + comesIn;
    const isLanding = silenceOf[note]! >= 0 && silences[silenceOf[note]!]!.suspect;
    const centre = expected[note]! + shiftOf(r) + z;
    if (followOnly) {
      const k = follow[note]!;
      if (k >= rows.onset[r]!) pair(r, note, k, { z, variance, log: there });
      else leaveOut(r, note);
      return;
    }
    if (!arrived || guide.source[note]! < 0) leaveOut(r, note);
    // What is played in open bars has no place to be displaced from.
    if (guide.source[note]! < 0 && rows.place[r] !== 0) return;
    const reach = GATE * Math.sqrt(variance + TAIL_VARIANCE * motor);
    const movedVariance = variance + (MOVED_BEATS * beatMs) ** 2;
    const far = isLanding ? Math.max(reach, 3 * Math.sqrt(movedVariance)) : reach;
    for (let k = rows.onset[r]!; k < played.at.length && played.at[k]! < centre + far; k++) {
      const off = played.at[k]! - centre;
      if (off < -far) continue;
      if (Math.abs(off) < reach) pair(r, note, k, { z, variance, log: there });
      if (isLanding) pair(r, note, k, { z, variance: movedVariance, log: there + Math.log(MOVED) });
    }
  }

  /** After a note, or where a silence starts: ways of going on elsewhere, each with its next note soon enough to be heard. */
  function moveOn(r: number, now: number): void {
    if (rows.left[r] === MOVED_HERE) return;
    const place = rows.place[r]!;
    const silence = open < 0 ? undefined : silences[open]!;
    if (silence?.suspect && now > silence.from - SAME_MS) {
      const late = rows.landed[r] === open && rows.landing[r]! < 0 && now < silence.to + COMES_IN_BEATS * beatMs;
      const due = timeOf(r);
      if (due <= silence.to + SAME_MS || rows.note[r] === silence.landing || late) {
        const chance = due >= silence.to - SAME_MS ? logHazard : hazard[open]!;
        for (const { by, logShare } of displacements.slips) {
          const other = displacements.placeAt(shiftOf(r) + by);
          if (other > 0) move(r, other, chance + logShare, now);
        }
      }
    }
    if (place === 0) return;
    const gap = Math.min(timeOf(r) - now, BACK_BEATS * beatMs);
    const stays = free ? Math.log1p(-SLIPS) : -gap / (BACK_BEATS * beatMs);
    move(r, 0, Math.log(-Math.expm1(stays)), now);
    rows.logWeight[r]! += stays;
  }

  /** The row also goes on at another displacement, where an onset is near enough to be its next note. */
  function move(r: number, place: number, logChance: number, now: number): void {
    const shift = displacements.ms[place]!;
    const belief = rows.belief[r]!;
    let note = rows.note[r]!;
    while (note < expected.length && expected[note]! + shift < now + SAME_MS) note++;
    if (note === expected.length) return;
    const due = expected[note]! + shift + expectedOf(belief);
    const wait = expected[note]! + shift - now;
    const reach = MOVE_GATE * Math.sqrt(varianceOf(belief) + clockPerMs * wait + TAIL_VARIANCE * motor);
    const near = Math.max(rows.onset[r]!, firstAtOrAfter(played.at, due - reach));
    if (near >= played.at.length || played.at[near]! > due + reach) return;
    const slot = roomFor(rows.logWeight[r]! + logChance, r);
    if (slot < 0) return;
    copyRow(rows, r, rows, slot);
    rows.logWeight[slot]! += logChance;
    for (let jumped = rows.note[r]!; jumped < note; jumped++) {
      if (silenceOf[jumped]! < 0) continue;
      rows.landed[slot] = silenceOf[jumped]!;
      rows.landing[slot] = -1;
      rows.landingPlace[slot] = place;
    }
    rows.note[slot] = note;
    rows.place[slot] = place;
    rows.left[slot] = MOVED_HERE;
    if (open >= 0 && rows.landed[slot] === open && rows.landing[slot]! < 0) rows.landingPlace[slot] = place;
    if (slot === rows.count - 1) mergeLast(rows);
  }

  /** A place for one more row of this weight; -1 when there is none. */
  function roomFor(logWeight: number, keep: number): number {
    if (rows.count < ROWS) return rows.count++;
    let least = keep === 0 ? 1 : 0;
    for (let s = 0; s < ROWS; s++) if (s !== keep && rows.logWeight[s]! < rows.logWeight[least]!) least = s;
    return rows.logWeight[least]! < logWeight ? least : -1;
  }

  function close(silence: number): void {
    if (silences[silence]!.suspect) {
      let most = Number.NEGATIVE_INFINITY;
      for (let r = 0; r < rows.count; r++) most = Math.max(most, rows.logWeight[r]!);
      const told: (Omit<LandingHypothesis, "weight"> & { weight: number })[] = [];
      const tell = (weight: number, one: Omit<LandingHypothesis, "weight">): void => {
        const known = told.find(
          (each) =>
            each.before === one.before && each.at === one.at && each.onset === one.onset && each.alone === one.alone,
        );
        if (known === undefined) told.push({ weight, ...one });
        else known.weight += weight;
      };
      for (let r = 0; r < rows.count; r++) {
        const weight = Math.exp(rows.logWeight[r]! - most);
        const landed = rows.landed[r] === silence;
        const at = landed ? rows.landingPlace[r]! : rows.place[r]!;
        const onset = landed ? rows.landing[r]! : -1;
        const before = rows.placeBefore[r]!;
        const after = rows.place[r]!;
        tell(weight, { before, at, after, onset, alone: false });
        if (onset >= 0 || rows.lone[r]! < 0) continue;
        tell(weight * Math.exp(logAlone + rows.logLone[r]!), { before, at, after, onset: rows.lone[r]!, alone: true });
      }
      const total = told.reduce((sum, { weight }) => sum + weight, 0);
      landings[silence] = told
        .map((one) => ({ ...one, weight: one.weight / total }))
        .filter(({ weight }) => weight > 1e-4)
        .sort((a, b) => b.weight - a.weight);
    }
    for (let r = 0; r < rows.count; r++) {
      if (rows.landed[r] === silence) {
        rows.landed[r] = -1;
        rows.landing[r] = rows.landingPlace[r] = 0;
      }
      rows.placeBefore[r] = 0;
      rows.lone[r] = -1;
      rows.logLone[r] = Number.NEGATIVE_INFINITY;
    }
    mergeAll();
  }

  function mergeAll(): void {
    next.count = 0;
    for (let r = 0; r < rows.count; r++) {
      copyRow(rows, r, next, next.count++);
      mergeLast(next);
    }
    [rows, next] = [next, rows];
  }

  /** Before the first silence, starts elsewhere that are unlikely by then are given up. */
  function giveUpStarts(): void {
    const best = rows.logWeight.subarray(0, rows.count).reduce((most, each) => Math.max(most, each));
    next.count = 0;
    for (let r = 0; r < rows.count; r++)
      if (rows.place[r] === 0 || rows.logWeight[r]! > best - GIVEN_UP) copyRow(rows, r, next, next.count++);
    [rows, next] = [next, rows];
  }

  function startSilence(silence: number): void {
    if (silence === 0) giveUpStarts();
    free = true;
    open = silence;
    const { suspect } = silences[silence]!;
    const steady = rows.count;
    for (let r = 0; r < steady; r++) {
      rows.placeBefore[r] = rows.place[r]!;
      letGo(rows.belief[r]!, noise.bias ** 2);
      if (!suspect || rows.count === ROWS) continue;
      copyRow(rows, r, rows, rows.count);
      letGo(rows.belief[rows.count]!, RUNAWAY.variance);
      rows.wide[rows.count] = 1;
      rows.logWeight[rows.count]! += RUNAWAY.logChance;
      rows.count++;
    }
    for (let r = 0, count = rows.count; suspect && r < count; r++) moveOn(r, silences[silence]!.from);
  }

  const closings = silences.map(({ closes }) => closes);
  let step = 0;
  let closing = 0;
  let silence = 0;
  for (;;) {
    while (step < guide.kind.length && !MATTERS[guide.kind[step]!]) step++;
    const common = Math.min(step < guide.kind.length ? guide.at[step]! : NEVER, closings[closing] ?? NEVER);
    let notes = NEVER;
    for (let r = 0; r < rows.count; r++) notes = Math.min(notes, timeOf(r));
    if (common === NEVER && notes === NEVER) break;
    if (notes <= common + SAME_MS && notes < NEVER) {
      const inPlace = (open < 0 || !silences[open]!.suspect) && allInPlace();
      if (inPlace && rows.count > 1) keepBest();
      next.count = 0;
      for (let r = 0; r < rows.count; r++) if (timeOf(r) > notes + SAME_MS) copyRow(rows, r, next, next.count++);
      for (let r = 0; r < rows.count; r++) if (timeOf(r) <= notes + SAME_MS) meet(r, notes, inPlace);
      [rows, next] = [next, rows];
      pruneRows(rows, notes);
      if (inPlace) continue;
      for (let r = 0, count = rows.count; r < count; r++)
        if (Math.abs(rows.metAt[r]! - notes) < SAME_MS) moveOn(r, notes);
      continue;
    }
    for (let r = 0; r < rows.count; r++) catchUp(r, common);
    if ((closings[closing] ?? NEVER) <= common) {
      close(closing);
      if (open === closing) open = -1;
      closing++;
      continue;
    }
    switch (guide.kind[step]) {
      case STEP.silenceStarts:
        startSilence(silence++);
        break;
      case STEP.silenceEnds:
        free = false;
        for (let r = 0; r < rows.count; r++) {
          takeUp(rows.belief[r]!);
          rows.wide[r] = 0;
        }
        mergeAll();
        break;
      default:
        for (let r = 0; r < rows.count; r++) {
          const heard = Math.abs(rows.heardAt[r]! - common) < SAME_MS;
          takeBack(rows.belief[r]!, noise.correction, heard ? rows.heardLate[r]! : Number.NaN);
        }
    }
    step++;
  }
  while (closing < silences.length) close(closing++);

  function allInPlace(): boolean {
    for (let r = 0; r < rows.count; r++) if (rows.place[r] !== 0) return false;
    return true;
  }

  function keepBest(): void {
    let best = 0;
    for (let r = 1; r < rows.count; r++) if (rows.logWeight[r]! > rows.logWeight[best]!) best = r;
    copyRow(rows, best, rows, 0);
    rows.count = 1;
  }

  let best = 0;
  for (let r = 1; r < rows.count; r++) if (rows.logWeight[r]! > rows.logWeight[best]!) best = r;
  const onsets = new Int32Array(expected.length).fill(-1);
  const places = new Int32Array(expected.length).fill(-1);
  for (let node = rows.node[best]!; node >= 0; node = tree.parent(node)) {
    onsets[tree.note(node)] = tree.onset(node);
    places[tree.note(node)] = tree.place(node);
  }
  return { landings: smoothed(landings), onsets, places, logLikelihood: rows.logWeight[best]! };
}

/** What the next silence shows of where the player was when it began bears on the landing before: whoever was displaced then was so since. */
function smoothed(landings: readonly (readonly LandingHypothesis[])[]): (readonly LandingHypothesis[])[] {
  const told = [...landings];
  for (let k = told.length - 2; k >= 0; k--) {
    for (const place of new Set(told[k + 1]!.map(({ before }) => before))) {
      if (place === 0) continue;
      const sum = (of: readonly LandingHypothesis[], key: "before" | "after"): number =>
        of.reduce((total, one) => total + (one[key] === place ? one.weight : 0), 0);
      const [now, then] = [sum(told[k]!, "after"), sum(told[k + 1]!, "before")];
      if (now === 0 || then <= now) continue;
      told[k] = told[k]!.map((one) => ({
        ...one,
        weight: one.weight * (one.after === place ? then / now : (1 - then) / (1 - now)),
      }));
    }
  }
  return told;
}

/** Kinds of steps that all rows take together; notes are met by each row in its own time, and marks do not matter here. */
const MATTERS: Readonly<Record<number, boolean>> = {
  [STEP.silenceStarts]: true,
  [STEP.silenceEnds]: true,
  [STEP.beat]: true,
};
