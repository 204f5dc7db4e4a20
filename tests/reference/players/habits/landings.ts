import { keyNumber } from "../../../../lib/take/onsets.js";
import type { Habit } from "../plan.js";
import { chosenSilences, type Often } from "./chosen.js";

const SAME = 1e-6;

/** Only the landing note is off, by a number of milliseconds between two (positive: late); the notes around it are in time. */
export function landingAlone(often: Often, least: number, most = least): Habit {
  const range = least === most ? `${least}` : `${least} to ${most}`;
  return {
    name: `landing alone ${range} ms, ${often}`,
    apply(plan, luck) {
      const size = luck("landing alone");
      const chosen = chosenSilences(plan, luck, often);
      for (const { landing } of chosen.map((index) => plan.stage.silences[index]!))
        plan.alone[landing]! += (least + (most - least) * size.uniform()) / 1000;
    },
  };
}

/**
 * The player lands off by so many milliseconds and finds the band again evenly over so many beats. Who lands early (negative) has left out what would have come
 * between.
 */
export function landingMoved(often: Often, ms: number, beats: number): Habit {
  return {
    name: `landing ${ms} ms, back over ${beats} beats, ${often}`,
    apply(plan, luck) {
      const { expected, beat } = plan.score;
      for (const index of chosenSilences(plan, luck, often)) {
        const { to } = plan.stage.silences[index]!;
        const at = plan.stage.at[to]!;
        plan.silences[index]!.pushedAtReturn += ms / 1000;
        for (let note = 0; note < expected.length; note++) {
          const passed = (expected[note]!.at - at) / (beats * beat);
          const before = at - expected[note]!.at;
          if (before > SAME && before <= -ms / 1000 + SAME) plan.played[note] = 0;
          if (passed > -SAME && passed < 1) plan.pushed[note]! += (ms / 1000) * (1 - passed);
        }
      }
    },
  };
}

/** The landing note and everything before the second beat is left out; the player joins there, in time. */
export function landingLeftOut(often: Often): Habit {
  return {
    name: `landing left out, joins at beat 2, ${often}`,
    apply(plan, luck) {
      const { expected, beat } = plan.score;
      for (const index of chosenSilences(plan, luck, often)) {
        const { to, landing } = plan.stage.silences[index]!;
        const end = Math.max(plan.stage.at[to]! + beat, expected[landing]!.at + SAME);
        expected.forEach(({ at }, note) => {
          if (note >= landing && at < end - SAME) plan.played[note] = 0;
        });
        plan.played[landing] = 0;
      }
    },
  };
}

/**
 * A note that is not written falls on the downbeat, and the landing note itself comes so many milliseconds after it: a lead-in that is late as a whole. The note
 * is so many semitones from the landing's own.
 */
export function leadInOnDownbeat(often: Often, ms: number, semitones: number): Habit {
  return {
    name: `lead-in on the downbeat, landing ${ms} ms late, ${semitones} semitones, ${often}`,
    fits: (_, { expected }) => expected.every(({ pitch }) => pitch !== undefined),
    apply(plan, luck) {
      for (const index of chosenSilences(plan, luck, often)) {
        const { landing } = plan.stage.silences[index]!;
        plan.alone[landing]! += ms / 1000;
        const pitch = keyNumber(plan.score.expected[landing]!.pitch) + semitones;
        plan.extras.push({ by: landing, after: -ms / 1000, pitch });
      }
    },
  };
}
