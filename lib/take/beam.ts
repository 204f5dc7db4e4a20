import type { Played } from "./pairing.js";

/** Costs of meeting one expected note. */
export interface Meeting {
  readonly motor: number;
  readonly logMissing: number;
  readonly logThere: number;
  readonly gate: number;
}

/** A reading that lost against another at the place where both agree again; `kept` is -1 for the ends of the take. */
export interface Alternative {
  readonly kept: number;
  readonly dropped: number;
  /** How much less likely, in natural logarithms. */
  readonly gap: number;
}

/** The readings of a take that are still alive, each with its belief about the player's time. Lives for one pairing. */
export interface Beam {
  begin(offset: number, offsetVariance: number, settled: number): void;
  /** Time passes: clock variance grows, and a tempo bias moves the player while free. */
  wait(gap: number, clockVariance: number, free: boolean): void;
  /** The accompaniment falls silent: each player gets a tempo bias of this variance or, in a reading of its own, of the wide one. */
  letGo(biasVariance: number, wide: { readonly variance: number; readonly logChance: number }): void;
  /** The accompaniment is back: the bias is forgotten. */
  takeUp(): void;
  /** A beat sounds: a share of the asynchrony is taken back; `note` is the expected onset on that beat, or -1. */
  correct(share: number, note: number): void;
  /** An expected note at time `at`: every reading is split into those that pair it and the one that misses it. */
  meet(note: number, at: number, played: Played, costs: Meeting): void;
  /** What the likeliest reading believes now. */
  belief(): { readonly asynchrony: number; readonly offset: number };
  finish(): { readonly best: number; readonly value: number; readonly alternatives: readonly Alternative[] };
  parentOf(node: number): number;
  noteOf(node: number): number;
  /** The onset paired at that node, -1 when the note was missed. */
  onsetOf(node: number): number;
}

// Readings alive at once, how much less likely than the best one may be (exp(-10), 1 in 20,000), and how near a reading that loses must have come
// to be reported (exp(-5), 1 in 150). Our choice: wider and deeper beams changed no figure of the accuracy bench.
const WIDTH = 20;
const DEEPEST = 10;
const NEAR = 5;
// Candidates for one note at most; more come only from onsets so dense that nothing can be told (a dozen within the reach of one note, for every reading).
const CANDIDATES = 256;
// Readings that stand at the same onset count as one when their times, offsets and tempo biases differ by less than so many standard deviations.
const SAME_MISSED = 0.25;
const SAME_HEARD = 3;
const SAME_OFFSET = 1;
const SAME_BIAS = 1;
// How far the variances of the tempo bias may be apart, in natural logarithms; TINY keeps the comparison finite where there is no bias.
const SAME_BIAS_SPREAD = 0.7;
const TINY = 1e-12;

// One reading is a row of doubles: time z, offset m, bias b, their covariances, log-likelihood, and the last note heard with its asynchrony.
const Z = 0;
const M = 1;
const B = 2;
const ZZ = 3;
const ZM = 4;
const ZB = 5;
const MM = 6;
const MB = 7;
const BB = 8;
const LL = 9;
const HEARD = 10;
const HEARD_AT = 11;
const ROW = 12;

/** Log-likelihoods are against the reading in which every onset is an addition, so that readings at different onsets can be compared. */
export function createBeam(): Beam {
  let rows = new Float64Array(WIDTH * ROW);
  let next = new Float64Array(WIDTH * ROW);
  let onset = new Int32Array(WIDTH);
  let nextOnset = new Int32Array(WIDTH);
  let node = new Int32Array(WIDTH);
  let nextNode = new Int32Array(WIDTH);
  const nextFrom = new Int32Array(WIDTH);
  let alive = 0;
  const nodes = createNodes();
  const alternatives: Alternative[] = [];
  // Candidates for the present note: the reading they come from, the onset they pair (-1: missed), where they stand then, their log-likelihood.
  const from = new Int32Array(CANDIDATES);
  const pairs = new Int32Array(CANDIDATES);
  const stands = new Int32Array(CANDIDATES);
  const likelihood = new Float64Array(CANDIDATES);
  const order = new Int32Array(CANDIDATES);
  let proposed = 0;

  function propose(reading: number, pair: number, standing: number, value: number): void {
    if (proposed === CANDIDATES) return;
    from[proposed] = reading;
    pairs[proposed] = pair;
    stands[proposed] = standing;
    likelihood[proposed] = value;
    let place = proposed;
    while (place > 0 && likelihood[order[place - 1]!]! < value) {
      order[place] = order[place - 1]!;
      place--;
    }
    order[place] = proposed++;
  }

  function proposeAll(note: number, at: number, played: Played, costs: Meeting): void {
    proposed = 0;
    for (let r = 0; r < alive; r++) {
      const row = r * ROW;
      const z = rows[row + Z]!;
      const v = rows[row + ZZ]! + costs.motor;
      const there = costs.logThere - 0.5 * Math.log(v);
      const far = Math.sqrt(v * costs.gate);
      let start = onset[r]!;
      while (start < played.at.length && played.at[start]! - at - z < -far) start++;
      const before = rows[row + LL]!;
      propose(r, -1, start, before + costs.logMissing);
      for (let k = start; k < played.at.length; k++) {
        const e = played.at[k]! - at - z;
        if (e > far) break;
        const evidence = played.evidence === undefined ? 0 : played.evidence(note, k);
        propose(r, k, k + 1, before + there - (0.5 * e * e) / v + evidence - played.logAdded[k]!);
      }
    }
  }

  /** The living reading this candidate would be the same as, or -1: same onset, same fate of the note, and the same belief before it. */
  function twinOf(candidate: number, count: number): number {
    const stand = stands[candidate]!;
    const paired = pairs[candidate]! >= 0;
    const row = from[candidate]! * ROW;
    for (let slot = 0; slot < count; slot++) {
      if (nextOnset[slot] !== stand || nodes.onset(nextNode[slot]!) >= 0 !== paired) continue;
      const theirs = nextFrom[slot]! * ROW;
      // A note that is heard pulls both times together; one that is missed leaves them apart.
      const apart = Math.abs(rows[theirs + Z]! - rows[row + Z]!) / Math.sqrt(rows[row + ZZ]!);
      const offset = Math.abs(rows[theirs + M]! - rows[row + M]!) / Math.sqrt(rows[row + MM]!);
      const bias = Math.abs(rows[theirs + B]! - rows[row + B]!) / Math.sqrt(rows[row + BB]! + TINY);
      const spread = Math.abs(Math.log((rows[theirs + BB]! + TINY) / (rows[row + BB]! + TINY)));
      const alike = offset < SAME_OFFSET && bias < SAME_BIAS && spread < SAME_BIAS_SPREAD;
      if (alike && apart < (paired ? SAME_HEARD : SAME_MISSED)) return slot;
    }
    return -1;
  }

  function settle(candidate: number, slot: number, note: number, at: number, played: Played, motor: number): void {
    const source = from[candidate]! * ROW;
    const row = slot * ROW;
    for (let i = 0; i < ROW; i++) next[row + i] = rows[source + i]!;
    next[row + LL] = likelihood[candidate]!;
    nextOnset[slot] = stands[candidate]!;
    nextFrom[slot] = from[candidate]!;
    const k = pairs[candidate]!;
    nextNode[slot] = nodes.add(node[from[candidate]!]!, note, k);
    if (k >= 0) observe(next, row, note, played.at[k]! - at, motor);
  }

  return {
    begin(offset, offsetVariance, settled) {
      rows[Z] = rows[M] = offset;
      rows[MM] = rows[ZM] = offsetVariance;
      rows[ZZ] = offsetVariance + settled;
      rows[HEARD] = -1;
      node[0] = -1;
      alive = 1;
    },
    wait(gap, clockVariance, free) {
      for (let row = 0; row < alive * ROW; row += ROW) {
        rows[row + ZZ] = rows[row + ZZ]! + clockVariance;
        if (!free) continue;
        const bb = rows[row + BB]!;
        rows[row + Z] = rows[row + Z]! + rows[row + B]! * gap;
        rows[row + ZZ] = rows[row + ZZ]! + gap * (2 * rows[row + ZB]! + gap * bb);
        rows[row + ZM] = rows[row + ZM]! + gap * rows[row + MB]!;
        rows[row + ZB] = rows[row + ZB]! + gap * bb;
      }
    },
    letGo(biasVariance, wide) {
      const steady = alive;
      for (let r = 0; r < steady; r++) {
        const row = r * ROW;
        rows[row + BB] = biasVariance;
        if (alive === WIDTH) continue;
        rows.copyWithin(alive * ROW, row, row + ROW);
        rows[alive * ROW + BB] = wide.variance;
        rows[alive * ROW + LL] = rows[row + LL]! + wide.logChance;
        onset[alive] = onset[r]!;
        node[alive] = node[r]!;
        alive++;
      }
    },
    takeUp() {
      for (let row = 0; row < alive * ROW; row += ROW) {
        rows[row + B] = rows[row + ZB] = rows[row + MB] = rows[row + BB] = 0;
      }
    },
    correct(share, note) {
      for (let row = 0; row < alive * ROW; row += ROW) takeBack(rows, row, share, note);
    },
    meet(note, at, played, costs) {
      proposeAll(note, at, played, costs);
      const best = likelihood[order[0]!]!;
      let count = 0;
      for (let rank = 0; rank < proposed; rank++) {
        const candidate = order[rank]!;
        const gap = best - likelihood[candidate]!;
        if (gap > DEEPEST) break;
        const twin = twinOf(candidate, count);
        if (twin >= 0) {
          const lost = next[twin * ROW + LL]! - likelihood[candidate]!;
          if (lost < NEAR) {
            const dropped = nodes.add(node[from[candidate]!]!, note, pairs[candidate]!);
            alternatives.push({ kept: nextNode[twin]!, dropped, gap: lost });
          }
        } else if (count < WIDTH) {
          settle(candidate, count++, note, at, played, costs.motor);
        }
      }
      [rows, next] = [next, rows];
      [onset, nextOnset] = [nextOnset, onset];
      [node, nextNode] = [nextNode, node];
      alive = count;
    },
    belief: () => ({ asynchrony: rows[Z]!, offset: rows[M]! }),
    finish() {
      const ends: [node: number, value: number][] = [];
      for (let r = 0; r < alive; r++) ends.push([node[r]!, rows[r * ROW + LL]!]);
      ends.sort((a, b) => b[1] - a[1]);
      const [best, value] = ends[0] ?? [-1, 0];
      for (const [dropped, theirs] of ends.slice(1)) {
        if (value - theirs < NEAR) alternatives.push({ kept: -1, dropped, gap: value - theirs });
      }
      return { best, value, alternatives };
    },
    parentOf: nodes.parent,
    noteOf: nodes.note,
    onsetOf: nodes.onset,
  };
}

function observe(rows: Float64Array, row: number, note: number, y: number, motor: number): void {
  const zz = rows[row + ZZ]!;
  const zm = rows[row + ZM]!;
  const zb = rows[row + ZB]!;
  const v = zz + motor;
  const e = (y - rows[row + Z]!) / v;
  rows[row + Z] = rows[row + Z]! + zz * e;
  rows[row + M] = rows[row + M]! + zm * e;
  rows[row + B] = rows[row + B]! + zb * e;
  rows[row + MM] = rows[row + MM]! - (zm * zm) / v;
  rows[row + MB] = rows[row + MB]! - (zm * zb) / v;
  rows[row + BB] = rows[row + BB]! - (zb * zb) / v;
  const left = motor / v;
  rows[row + ZM] = zm * left;
  rows[row + ZB] = zb * left;
  rows[row + ZZ] = zz * left;
  rows[row + HEARD] = note;
  rows[row + HEARD_AT] = y;
}

function takeBack(rows: Float64Array, row: number, share: number, note: number): void {
  const heard = note >= 0 && rows[row + HEARD] === note;
  const keep = heard ? 1 : 1 - share;
  const z = rows[row + Z]!;
  const m = rows[row + M]!;
  const zm = rows[row + ZM]!;
  const mm = rows[row + MM]!;
  rows[row + Z] = heard ? z - share * (rows[row + HEARD_AT]! - m) : keep * z + share * m;
  rows[row + ZZ] = keep * keep * rows[row + ZZ]! + share * (2 * keep * zm + share * mm);
  rows[row + ZB] = keep * rows[row + ZB]! + share * rows[row + MB]!;
  rows[row + ZM] = keep * zm + share * mm;
}

/** The tree of readings: every node is one expected note as one reading met it. */
function createNodes(): {
  add(parent: number, note: number, onset: number): number;
  parent(node: number): number;
  note(node: number): number;
  onset(node: number): number;
} {
  let data = new Int32Array(3 * 512);
  let count = 0;
  return {
    add(parent, note, onset) {
      if (3 * count + 3 > data.length) {
        const larger = new Int32Array(data.length * 2);
        larger.set(data);
        data = larger;
      }
      data[3 * count] = parent;
      data[3 * count + 1] = note;
      data[3 * count + 2] = onset;
      return count++;
    },
    parent: (node) => data[3 * node]!,
    note: (node) => data[3 * node + 1]!,
    onset: (node) => data[3 * node + 2]!,
  };
}
