import type { Law } from "./law.js";
import { walk } from "./walk.js";

/** Lateness below which nothing is answered, seconds. */
const UNNOTICED = 0.018;
const SHARE = { lowest: 0.5, range: 0.3 } as const;
/** Beats over which each part of the long-memory noise forgets by 1 - 1/e; equal parts give about 1/f between the ends. */
const MEMORIES = [1, 3, 10, 30, 100] as const;
/** Share of a hand's delay that is a late tail (exponential), in standard deviations of the hand. */
const TAIL = 0.7;

/**
 * HELD OUT: written before the method it tests, and run by nobody before the end; only `HELD_OUT=yes` runs it, and its figures are reported as they fall.
 *
 * Intervals with long memory (a sum of slow and fast wanderings, about 1/f: after Gilden, Thornton & Mallon 1995, from memory), a hand whose delays have a late
 * tail (normal plus exponential), and a correction that does not answer what is not noticed but answers the rest strongly.
 */
export const heldOut: Law = {
  name: "HELD OUT: 1/f intervals, late tail, dead zone",
  linearWithin: 0,
  play(stage, temper, { draws, traits }) {
    const share = SHARE.lowest + SHARE.range * traits("share");
    const normal = draws("hand", stage.note.length);
    const first = draws("tail one", stage.note.length);
    const second = draws("tail two", stage.note.length);
    // Half the sum of two squared normals is exponential with mean 1.
    const hand = normal.map((draw, i) => {
      const exponential = (first[i]! ** 2 + second[i]! ** 2) / 2;
      return temper.hand * (Math.sqrt(1 - TAIL * TAIL) * draw + TAIL * (exponential - 1));
    });
    const steps = MEMORIES.map((beats) => draws(`memory of ${beats}`, stage.at.length));
    const states = MEMORIES.map(() => 0);
    const late = walk(stage, {
      start: draws("start", 1)[0]! * temper.clock,
      pass: (place, gap, silence) => {
        const beats = gap / stage.beat;
        MEMORIES.forEach((memory, k) => {
          const kept = Math.exp(-beats / memory);
          states[k] = kept * states[k]! + Math.sqrt(1 - kept * kept) * steps[k]![place]!;
        });
        const sum = states.reduce((total, state) => total + state, 0) / Math.sqrt(MEMORIES.length);
        return (silence < 0 ? 0.5 : 1) * (temper.clock / stage.beat + temper.bias) * sum * gap;
      },
      answer: (now, place) =>
        stage.tick[place] === 0 || Math.abs(now) < UNNOTICED ? 0 : share * (now - Math.sign(now) * UNNOTICED),
    });
    return { late, hand };
  },
};
