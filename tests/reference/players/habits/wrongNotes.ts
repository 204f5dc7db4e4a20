import { uniforms } from "../luck.js";
import type { Habit } from "../plan.js";
import { pitchesOf } from "./pitches.js";

/** Each note is of a pitch of the riff chosen by luck, right by chance alone. */
export const randomPitches: Habit = {
  name: "pitches at random",
  apply({ score, pitches }, luck) {
    const known = pitchesOf(score);
    uniforms(luck, "wrong pitch", pitches.length).forEach((chance, note) => {
      pitches[note] = known[Math.floor(chance * known.length)]!;
    });
  },
};
