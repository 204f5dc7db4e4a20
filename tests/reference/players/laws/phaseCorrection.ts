import { handOf } from "./hand.js";
import type { Law } from "./law.js";
import { walk } from "./walk.js";

/** Share of an asynchrony taken back at a beat, lowest and range among players: our choice about the published 0.2 to 0.6 (from memory). */
const CORRECTION = { lowest: 0.2, range: 0.4 } as const;

/**
 * First-order phase correction with a clock and a hand: A(n+1) = (1 - α) A(n) + T(n) + M(n+1) - M(n) - P at heard beats n, A the asynchrony, T the
 * clock's interval, M the hand's delay, P the beat (Vorberg & Wing 1996, Vorberg & Schulze 2002, from memory). With the pulse z = A - M this is
 * z(n+1) = z(n) - α (z(n) + M(n)) + T(n) - P. A beat without a note is answered by the pulse alone. In a silence α = 0 and T has a bias of its own.
 */
export const phaseCorrection: Law = {
  name: "first-order phase correction",
  linearWithin: Infinity,
  play(stage, temper, { draws, traits }) {
    const share = CORRECTION.lowest + CORRECTION.range * traits("correction");
    const hand = handOf(stage, temper, draws);
    const clock = draws("clock", stage.at.length);
    const bias = draws("bias", stage.silences.length);
    const late = walk(stage, {
      start: draws("start", 1)[0]! * temper.clock,
      pass: (place, gap, silence) =>
        temper.clock * Math.sqrt(gap / stage.beat) * clock[place]! +
        (silence < 0 ? 0 : temper.bias * bias[silence]! * gap),
      answer: (now, place) => {
        if (stage.tick[place] === 0) return 0;
        const note = stage.noteAt[place]!;
        return share * (now + (note < 0 ? 0 : hand[note]!));
      },
    });
    return { late, hand };
  },
};
