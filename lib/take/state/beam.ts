import type { Played } from "./evidence.js";
import type { Noise } from "./noise.js";
import {
  advance,
  alike,
  BELIEF,
  begin,
  copyBelief,
  expectedOf,
  isAway,
  letGo,
  type OffsetPrior,
  observe,
  offsetOf,
  takeBack,
  takeUp,
  turnBack,
  varianceOf,
} from "./space.js";
import { createTree } from "./tree.js";

/** Costs of meeting one expected note. */
export interface Meeting {
  readonly motor: number;
  readonly logMissing: number;
  readonly logThere: number;
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
  begin(prior: OffsetPrior, noise: Noise): void;
  /** Time passes: clock variance grows, and a tempo bias moves the player while free. */
  wait(gap: number, clockVariance: number, wander: number | undefined): void;
  /** The accompaniment falls silent: each player gets a tempo bias of this variance or, in a reading of its own, of the wide one. */
  letGo(biasVariance: number, wide: { readonly variance: number; readonly logChance: number }): void;
  /** The accompaniment is back: the bias is forgotten. */
  takeUp(): void;
  /** Each player who is so many ms away from the accompaniment goes on as he does or, in a reading of its own that is marked, is back with it at once. */
  turnBack(awayMs: number, logChance: number, mark: number): void;
  /** A beat sounds: a share of the asynchrony is taken back; `note` is the expected onset on that beat, or -1. */
  correct(share: number, note: number): void;
  /** An expected note at time `at`: every reading is split into those that pair it and the one that misses it. */
  meet(note: number, at: number, played: Played, costs: Meeting): void;
  /** What the likeliest reading believes now. */
  belief(): { readonly asynchrony: number; readonly offset: number };
  finish(): { readonly best: number; readonly value: number; readonly alternatives: readonly Alternative[] };
  parentOf(node: number): number;
  /** -1 where the player turned back. */
  noteOf(node: number): number;
  /** The onset paired at that node, -1 when the note was missed; the mark where the player turned back. */
  onsetOf(node: number): number;
}

// Readings alive at once, how much less likely than the best one may be (exp(-10), 1 in 20,000), and how near a reading that loses must have come
// to be reported (exp(-5), 1 in 150). Our choice: wider and deeper beams changed no figure of the accuracy bench.
const WIDTH = 20;
const DEEPEST = 10;
const NEAR = 5;
// A candidate further off than this many standard deviations is no candidate: exp(-18) is far below every other cost.
const GATE = 6;
// Candidates for one note at most; more come only from onsets so dense that nothing can be told (a dozen within the reach of one note, for every reading).
const CANDIDATES = 256;
// Readings that stand at the same onset count as one when their times differ by less than so many standard deviations: a note that is heard pulls
// both times together; one that is missed leaves them apart. Our choice.
const SAME_MISSED = 0.25;
const SAME_HEARD = 3;

/** Readings side by side. */
interface Readings {
  readonly belief: Float64Array[];
  readonly logLikelihood: Float64Array;
  /** The onset each stands at: the first it has not met. */
  readonly onset: Int32Array;
  /** The last note of each in the tree of readings, or -1. */
  readonly node: Int32Array;
  /** The last note that was heard, or -1, and its asynchrony. */
  readonly heard: Int32Array;
  readonly heardAt: Float64Array;
}

const createReadings = (): Readings => ({
  belief: [],
  logLikelihood: new Float64Array(WIDTH),
  onset: new Int32Array(WIDTH),
  node: new Int32Array(WIDTH),
  heard: new Int32Array(WIDTH),
  heardAt: new Float64Array(WIDTH),
});

/** Copies one reading over another, of the same set or of another. */
function copy(source: Readings, from: number, target: Readings, to: number): void {
  target.belief[to] ??= new Float64Array(BELIEF);
  copyBelief(source.belief[from]!, target.belief[to]);
  target.logLikelihood[to] = source.logLikelihood[from]!;
  target.onset[to] = source.onset[from]!;
  target.node[to] = source.node[from]!;
  target.heard[to] = source.heard[from]!;
  target.heardAt[to] = source.heardAt[from]!;
}

// Candidates for the present note: the reading they come from, the onset they pair (-1: missed), where they stand then, their log-likelihood; and
// their order. Nothing of them outlives the note, so that all pairings may use the same.
const from = new Int32Array(CANDIDATES);
const pairs = new Int32Array(CANDIDATES);
const stands = new Int32Array(CANDIDATES);
const likelihood = new Float64Array(CANDIDATES);
const order = new Int32Array(CANDIDATES);

/** Log-likelihoods are against the reading in which every onset is an addition, so that readings at different onsets can be compared. */
export function createBeam(): Beam {
  let now = createReadings();
  let next = createReadings();
  const cameFrom = new Int32Array(WIDTH);
  let alive = 0;
  const nodes = createTree();
  const alternatives: Alternative[] = [];
  let proposed = 0;

  /** One more reading like this one, so much less likely, at the end; answers whether there was room. */
  function split(reading: number, logChance: number): boolean {
    if (alive === WIDTH) return false;
    copy(now, reading, now, alive);
    now.logLikelihood[alive++]! += logChance;
    return true;
  }

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
      const belief = now.belief[r]!;
      const z = expectedOf(belief);
      const v = varianceOf(belief) + costs.motor;
      const there = costs.logThere - 0.5 * Math.log(v);
      const far = GATE * Math.sqrt(v);
      let start = now.onset[r]!;
      while (start < played.at.length && played.at[start]! - at - z < -far) start++;
      const before = now.logLikelihood[r]!;
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
    const belief = now.belief[from[candidate]!]!;
    for (let slot = 0; slot < count; slot++) {
      if (next.onset[slot] !== stand || nodes.onset(next.node[slot]!) >= 0 !== paired) continue;
      if (alike(now.belief[cameFrom[slot]!]!, belief, paired ? SAME_HEARD : SAME_MISSED)) return slot;
    }
    return -1;
  }

  function settle(candidate: number, slot: number, note: number, at: number, played: Played, motor: number): void {
    const source = from[candidate]!;
    const k = pairs[candidate]!;
    copy(now, source, next, slot);
    cameFrom[slot] = source;
    next.logLikelihood[slot] = likelihood[candidate]!;
    next.onset[slot] = stands[candidate]!;
    next.node[slot] = nodes.add(now.node[source]!, note, k, 0);
    if (k < 0) return;
    const y = played.at[k]! - at;
    observe(next.belief[slot]!, y, motor);
    next.heard[slot] = note;
    next.heardAt[slot] = y;
  }

  return {
    begin(prior, noise) {
      now.belief[0] = new Float64Array(BELIEF);
      begin(now.belief[0], prior, noise);
      now.heard[0] = now.node[0] = -1;
      alive = 1;
    },
    wait(gap, clockVariance, wander) {
      for (let r = 0; r < alive; r++) advance(now.belief[r]!, gap, clockVariance, wander);
    },
    letGo(biasVariance, wide) {
      const steady = alive;
      for (let r = 0; r < steady; r++) {
        letGo(now.belief[r]!, biasVariance);
        if (split(r, wide.logChance)) letGo(now.belief[alive - 1]!, wide.variance);
      }
    },
    takeUp() {
      for (let r = 0; r < alive; r++) takeUp(now.belief[r]!);
    },
    turnBack(awayMs, logChance, mark) {
      const steady = alive;
      for (let r = 0; r < steady; r++) {
        if (!isAway(now.belief[r]!, awayMs) || !split(r, logChance)) continue;
        turnBack(now.belief[alive - 1]!);
        now.heard[alive - 1] = -1;
        now.node[alive - 1] = nodes.add(now.node[r]!, -1, mark, 0);
      }
    },
    correct(share, note) {
      for (let r = 0; r < alive; r++)
        takeBack(now.belief[r]!, share, note >= 0 && now.heard[r] === note ? now.heardAt[r]! : Number.NaN);
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
          const lost = next.logLikelihood[twin]! - likelihood[candidate]!;
          if (lost < NEAR) {
            const dropped = nodes.add(now.node[from[candidate]!]!, note, pairs[candidate]!, 0);
            alternatives.push({ kept: next.node[twin]!, dropped, gap: lost });
          }
        } else if (count < WIDTH) {
          settle(candidate, count++, note, at, played, costs.motor);
        }
      }
      [now, next] = [next, now];
      alive = count;
    },
    belief: () => ({ asynchrony: expectedOf(now.belief[0]!), offset: offsetOf(now.belief[0]!) }),
    finish() {
      const ends: [node: number, value: number][] = [];
      for (let r = 0; r < alive; r++) ends.push([now.node[r]!, now.logLikelihood[r]!]);
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
