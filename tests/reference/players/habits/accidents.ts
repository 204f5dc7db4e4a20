import { uniforms } from "../luck.js";
import type { Habit } from "../plan.js";
import { pitchesOf } from "./pitches.js";

/** Each note is left out with a chance in per cent, landings as well. */
export function misses(percent: number): Habit {
  return {
    name: `${percent} % missed`,
    apply({ played }, luck) {
      uniforms(luck, "missed", played.length).forEach((chance, note) => {
        if (chance < percent / 100) played[note] = 0;
      });
    },
  };
}

/** For each note one more sounds with a chance in per cent, anywhere in the take, of a pitch of the riff. */
export function adds(percent: number): Habit {
  return {
    name: `${percent} % added`,
    apply({ played, extras, score }, luck) {
      const where = uniforms(luck, "added where", played.length);
      const pitch = luck("added pitch");
      const pitches = pitchesOf(score);
      uniforms(luck, "added", played.length).forEach((chance, note) => {
        const chosen = pitches[pitch.below(pitches.length)]!;
        if (chance < percent / 100) extras.push({ at: where[note]! * score.duration, pitch: chosen });
      });
    },
  };
}
