import { handOf } from "./hand.js";
import type { Law } from "./law.js";
import { walk } from "./walk.js";

const SHARE = { lowest: 0.2, range: 0.3 } as const;
/** Seconds in which the tempo sways once: our choice, a breath to a long phrase. */
const PERIOD = { lowest: 5, range: 12 } as const;

/** The tempo sways like a sine, heard or not, its size and phase the same through a take; heard beats are answered by a share. Ours. */
export const wobble: Law = {
  name: "slow wobble",
  linearWithin: Infinity,
  play(stage, temper, { draws, traits }) {
    const share = SHARE.lowest + SHARE.range * traits("share");
    const turn = (2 * Math.PI) / (PERIOD.lowest + PERIOD.range * traits("period"));
    const hand = handOf(stage, temper, draws);
    const clock = draws("clock", stage.at.length);
    const [a, b] = draws("sway", 2) as unknown as [number, number];
    const size = (1.2 * temper.bias) / turn;
    const swayed = (time: number): number => size * (a * Math.sin(turn * time) - b * Math.cos(turn * time));
    const late = walk(stage, {
      start: draws("start", 1)[0]! * temper.clock,
      pass: (place, gap) =>
        swayed(stage.at[place]! + gap) -
        swayed(stage.at[place]!) +
        temper.clock * Math.sqrt(gap / stage.beat) * clock[place]!,
      answer: (now, place) => (stage.tick[place] === 0 ? 0 : share * now),
    });
    return { late, hand };
  },
};
