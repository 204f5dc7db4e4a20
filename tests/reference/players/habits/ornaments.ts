import { uniforms } from "../luck.js";
import type { Habit } from "../plan.js";
import { pitchesOf } from "./pitches.js";

/** Before a share of the notes, in per cent, a grace note sounds 35 to 90 ms earlier, of a pitch of the riff. */
export function graceNotes(percent: number): Habit {
  return ornament(`grace notes on ${percent} %`, percent, (chance) => -(35 + 55 * chance) / 1000);
}

/** A share of the notes, in per cent, sound twice, the second time 25 to 70 ms later and of the same pitch. */
export function doubledNotes(percent: number): Habit {
  return ornament(`doubled notes on ${percent} %`, percent, (chance) => (25 + 45 * chance) / 1000, "same");
}

/** After a share of the notes, in per cent, another sounds half-way to the next, of a pitch of the riff. */
export function fills(percent: number): Habit {
  return ornament(`fills on ${percent} %`, percent, (_chance, toNext) => toNext / 2);
}

function ornament(
  name: string,
  percent: number,
  after: (chance: number, toNext: number) => number,
  pitched: "any" | "same" = "any",
): Habit {
  return {
    name,
    apply({ score, played, extras }, luck) {
      const { expected, beat } = score;
      const pitches = pitchesOf(score);
      const shown = uniforms(luck, "ornamented", expected.length);
      const where = uniforms(luck, "ornament where", expected.length);
      const pitch = uniforms(luck, "ornament pitch", expected.length);
      expected.forEach((note, by) => {
        if (shown[by]! >= percent / 100 || played[by] === 0) return;
        const toNext = (expected[by + 1]?.at ?? note.at + beat) - note.at;
        const chosen = pitches[Math.floor(pitch[by]! * pitches.length)]!;
        extras.push({
          by,
          after: after(where[by]!, toNext),
          pitch: pitched === "same" ? (note.pitch ?? chosen) : chosen,
        });
      });
    },
  };
}
