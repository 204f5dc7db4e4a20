import { handOf } from "./hand.js";
import type { Law } from "./law.js";
import { walk } from "./walk.js";

const SHARE = { lowest: 0.25, range: 0.3 } as const;
/** Share of the tempo error that remains after a heard beat: our choice. */
const KEPT_TEMPO = 0.6;

/**
 * The tempo is a random walk. A heard beat takes back a share of the lateness and of the tempo error; in a silence nothing does, and the tempo also
 * drifts one way, by as much over a silence as its bias. Ours, after the random-walk component of continuation tapping (from memory).
 */
export const wanderingTempo: Law = {
  name: "random-walk tempo, drifting bias",
  linearWithin: Infinity,
  play(stage, temper, { draws, traits }) {
    const share = SHARE.lowest + SHARE.range * traits("share");
    const hand = handOf(stage, temper, draws);
    const clock = draws("clock", stage.at.length);
    const step = draws("step", stage.at.length);
    const trend = draws("trend", stage.silences.length);
    let slow = 0;
    const late = walk(stage, {
      start: draws("start", 1)[0]! * temper.clock,
      pass: (place, gap, silence) => {
        const beats = gap / stage.beat;
        slow += 0.4 * temper.bias * Math.sqrt(beats) * step[place]!;
        if (silence >= 0) slow += (temper.bias * trend[silence]! * gap) / stage.silences[silence]!.length;
        return slow * gap + 0.7 * temper.clock * Math.sqrt(beats) * clock[place]!;
      },
      answer: (now, place) => {
        if (stage.tick[place] === 0) return 0;
        slow *= KEPT_TEMPO;
        return share * now;
      },
    });
    return { late, hand };
  },
};
