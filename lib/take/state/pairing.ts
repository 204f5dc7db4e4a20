import { type Beam, createBeam, type Meeting } from "./beam.js";
import { PLACE_TAKEN } from "./chances.js";
import type { Played } from "./evidence.js";
import { type Guide, STEP } from "./guide.js";
import { type Noise, wanderPerMs } from "./noise.js";
import type { OffsetPrior } from "./space.js";

/** What a pairing assumes of the player: the noise, the constant offset, and the chance that a note is left out. */
export interface PairingTerms {
  readonly noise: Noise;
  readonly prior: OffsetPrior;
  readonly missing: number;
}

/** Another pairing that comes near the likeliest, told by what is different. */
export interface RivalPairing {
  /** Logarithm of its weight against the likeliest; 0 or less. */
  readonly logWeight: number;
  /** Places that are paired otherwise, ascending, with their onset there (-1: missed). */
  readonly changes: readonly (readonly [place: number, onset: number])[];
}

/** The pairing that explains a take best, and those that come near it. */
export interface Paired {
  /** Per place: index of the played onset, or -1. */
  readonly onsets: Int32Array;
  /** The likeliest first. */
  readonly rivals: readonly RivalPairing[];
  /** When the player was back with the accompaniment at once; negative where the note then was in time already. See `turningBack`. */
  readonly turnsBack: readonly number[];
  /** Logarithm of the likelihood ratio against "every onset is an addition". */
  readonly logLikelihood: number;
}

/** A pairing in the making: the take is walked as far as the onsets reach. */
export interface Walk {
  /** Meets everything that lies before `until` (ms). All onsets up to then and a little later must be in `played`. */
  on(until: number, played: Played): void;
  /** The likeliest reading's belief now: the player's asynchrony and constant offset, ms. */
  belief(): { readonly asynchrony: number; readonly offset: number };
  finish(): Paired;
}

// One silence in twenty is played at a tempo of its own, as far off as continuation over a minute has been seen to go (up to 11.5 %: Stevens 1886); the chance is our choice.
export const RUNAWAY: { readonly variance: number; readonly logChance: number } = {
  variance: 0.1 ** 2,
  logChance: Math.log(0.05),
};
// When the accompaniment returns, one player in ten who is this far from it (ms) hears it and is back with it at once, instead of taking back a share on each
// beat; one in a hundred already with the note on the return. Our choice: correction is what taps with a machine show; musicians wait for each other too.
const TURNS_MS = 60;
const TURNS_BACK = 0.1;
const IS_MS = 120;
const IS_BACK = 0.01;
// Pairing allows for this much timing noise at least, ms, so that one displaced note in a very even take is still that note (our choice).
export const LEAST_MOTOR_MS = 5;

/**
 * The likeliest pairing of played onsets with expected ones, and every other reading that comes near it.
 *
 * Each reading carries its own belief about the player's time, so the phase is followed, not snapped to the nearest note: it is corrected
 * where the accompaniment sounds and runs free where it does not. At every expected note a reading may take the next onset or a later one
 * (those between are additions) or leave the note out; readings that agree again are merged, the less likely kept as an alternative
 * (multiple-hypothesis tracking: Reid 1979, IEEE Trans. Automatic Control 24, 843-854, from memory). Linear in the number of notes.
 */
export function pairOnsets(guide: Guide, played: Played, terms: PairingTerms): Paired {
  const walk = startWalk(guide, terms);
  walk.on(Number.POSITIVE_INFINITY, played);
  return walk.finish();
}

export function startWalk(guide: Guide, { noise, prior, missing }: PairingTerms): Walk {
  const beam = createBeam();
  const costs = meetingCosts(missing, noise.motor);
  const openCosts = meetingCosts(1 - PLACE_TAKEN, noise.motor);
  const wander = wanderPerMs(noise, guide.beatMs);
  beam.begin(prior, noise);
  let now = guide.at[0] ?? 0;
  let free = false;
  let step = 0;
  const on = (until: number, played: Played): void => {
    for (; step < guide.kind.length && guide.at[step]! < until; step++) {
      const gap = guide.at[step]! - now;
      if (gap > 0) {
        now = guide.at[step]!;
        beam.wait(gap, (noise.clock ** 2 / guide.beatMs) * gap, free ? wander : undefined);
      }
      const which = guide.index[step]!;
      switch (guide.kind[step]) {
        case STEP.note:
          if (free && guide.kind[step + 1] === STEP.markEnds && guide.at[step + 1] === now)
            beam.turnBack(IS_MS, Math.log(IS_BACK), step);
          beam.meet(which, now, played, guide.source[which]! < 0 ? openCosts : costs);
          break;
        case STEP.silenceStarts:
          free = true;
          beam.letGo(noise.bias ** 2, RUNAWAY);
          break;
        case STEP.silenceEnds:
          free = false;
          beam.takeUp();
          beam.turnBack(TURNS_MS, Math.log(TURNS_BACK), step);
          break;
        case STEP.beat:
          beam.correct(noise.correction, which);
      }
    }
  };
  return { on, belief: beam.belief, finish: () => readingsOf(beam, guide) };
}

function meetingCosts(missing: number, motor: number): Meeting {
  return {
    motor: Math.max(LEAST_MOTOR_MS, motor) ** 2,
    logMissing: Math.log(missing),
    logThere: Math.log1p(-missing) - 0.5 * Math.log(2 * Math.PI),
  };
}

function readingsOf(beam: Beam, { expected: { length: notes }, kind, at }: Guide): Paired {
  const { best, value, alternatives } = beam.finish();
  const onsets = new Int32Array(notes).fill(-1);
  const nodeAt = new Int32Array(notes).fill(-1);
  const turnsBack: number[] = [];
  for (let node = best; node >= 0; node = beam.parentOf(node)) {
    const note = beam.noteOf(node);
    const onset = beam.onsetOf(node);
    if (note < 0) turnsBack.push(kind[onset] === STEP.note ? -at[onset]! : at[onset]!);
    onsets[note] = onset;
    nodeAt[note] = node;
  }
  const rivals: RivalPairing[] = [];
  for (const { kept, dropped, gap } of alternatives) {
    if (kept >= 0 && nodeAt[beam.noteOf(kept)] !== kept) continue;
    const changes: [number, number][] = [];
    for (let node = dropped; node >= 0 && nodeAt[beam.noteOf(node)] !== node; node = beam.parentOf(node)) {
      if (beam.noteOf(node) >= 0 && onsets[beam.noteOf(node)] !== beam.onsetOf(node))
        changes.push([beam.noteOf(node), beam.onsetOf(node)]);
    }
    if (changes.length > 0) rivals.push({ logWeight: -gap, changes: changes.reverse() });
  }
  rivals.sort((a, b) => b.logWeight - a.logWeight);
  return { onsets, rivals, turnsBack, logLikelihood: value };
}
