import { handOf } from "./hand.js";
import type { Law } from "./law.js";
import { walk } from "./walk.js";

const PHASE_SHARE = { lowest: 0.25, range: 0.3 } as const;
const PERIOD_SHARE = { lowest: 0.05, range: 0.15 } as const;

/**
 * Second-order correction: a beat answers the asynchrony by a share α in phase and a share β in period, τ(n+1) = τ(n) - β A(n) (Mates 1994; Vorberg & Schulze
 * 2002, from memory). The period wanders by a third of the bias a beat. What tempo a silence has is the period that the last heard beats left, and a
 * further step when the accompaniment lets go.
 */
export const periodCorrection: Law = {
  name: "period correction",
  linearWithin: Infinity,
  play(stage, temper, { draws, traits }) {
    const alpha = PHASE_SHARE.lowest + PHASE_SHARE.range * traits("phase share");
    const beta = PERIOD_SHARE.lowest + PERIOD_SHARE.range * traits("period share");
    const hand = handOf(stage, temper, draws);
    const clock = draws("clock", stage.at.length);
    const wander = draws("period", stage.at.length);
    const letGo = draws("let go", stage.silences.length);
    // Seconds later for each second.
    let slow = 0;
    const late = walk(stage, {
      start: draws("start", 1)[0]! * temper.clock,
      pass: (place, gap, silence) => {
        const beats = gap / stage.beat;
        if (silence >= 0 && stage.silences[silence]!.from === place) slow += 0.8 * temper.bias * letGo[silence]!;
        slow += (temper.bias / 3) * Math.sqrt(beats) * wander[place]!;
        return slow * gap + temper.clock * Math.sqrt(beats) * clock[place]!;
      },
      answer: (now, place) => {
        if (stage.tick[place] === 0) return 0;
        slow -= (beta * now) / stage.beat;
        return alpha * now;
      },
    });
    return { late, hand };
  },
};
