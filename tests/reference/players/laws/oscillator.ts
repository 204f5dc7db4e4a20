import { handOf } from "./hand.js";
import type { Law } from "./law.js";
import { walk } from "./walk.js";

const PHASE_COUPLING = { lowest: 0.15, range: 0.25 } as const;
const PERIOD_COUPLING = 0.03;
/** Time in which the period goes back to the player's own by 1 - 1/e, beats: our choice. */
const RELAXATION_BEATS = 4;

/**
 * An adaptive oscillator: every stroke of the accompaniment, not the beat alone, pulls phase and period by the sine of the phase at which it is heard,
 * φ' = φ - (η / 2π) sin 2πφ (after Large & Kolen 1994 and Large & Jones 1999, from memory). A stroke off the beat is heard against the subdivision it lies on.
 * Left alone, the period relaxes to one that the player prefers.
 */
export const oscillator: Law = {
  name: "oscillator, period adapts",
  linearWithin: 1 / 8,
  play(stage, temper, { draws, traits }) {
    const eta = PHASE_COUPLING.lowest + PHASE_COUPLING.range * traits("coupling");
    const hand = handOf(stage, temper, draws);
    const clock = draws("clock", stage.at.length);
    const own = 0.7 * temper.bias * draws("own tempo", 1)[0]!;
    const mood = draws("mood", stage.silences.length);
    let slow = 0;
    const late = walk(stage, {
      start: draws("start", 1)[0]! * temper.clock,
      pass: (place, gap, silence) => {
        const preferred = own + (silence < 0 ? 0 : 0.7 * temper.bias * mood[silence]!);
        const kept = Math.exp(-gap / (RELAXATION_BEATS * stage.beat));
        // The mean of the period error over the gap, then the error at its end.
        const mean = preferred + ((slow - preferred) * (1 - kept) * RELAXATION_BEATS * stage.beat) / gap;
        slow = preferred + (slow - preferred) * kept;
        return mean * gap + temper.clock * Math.sqrt(gap / stage.beat) * clock[place]!;
      },
      answer: (now, place) => {
        if (stage.stroke[place] === 0) return 0;
        const pull = Math.sin((2 * Math.PI * now) / stage.beat) / (2 * Math.PI);
        slow -= PERIOD_COUPLING * pull;
        return eta * stage.beat * pull;
      },
    });
    return { late, hand };
  },
};
