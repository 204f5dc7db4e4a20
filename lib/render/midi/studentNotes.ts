import { compare, type Fraction, fractionText, subtract } from "../../base/index.js";
import type { Score, ScoreNote } from "../../schema/index.js";
import { beatUnitOf, exactly, lengthOf } from "../ticks.js";

/** The notes expected of the student: those of the part where it plays throughout, else one for each expected onset. */
export function studentNotes(score: Score): readonly ScoreNote[] {
  const own = score.parts.find((part) => part.student);
  if (own?.does === "plays") return own.notes;
  const beat = beatUnitOf(score);
  return score.expected.map((onset, i) => {
    const from = exactly(onset.position);
    const next = score.expected[i + 1];
    const room = subtract(next === undefined ? lengthOf(score) : exactly(next.position), from);
    const length = shorter(room, shorter(beat, beforeOpen(score, from) ?? beat));
    return {
      position: onset.position,
      length: fractionText(length),
      at: onset.at,
      seconds: 0,
      ...(onset.pitch === undefined ? { voice: "snare" } : { pitch: onset.pitch }),
      ...(onset.accent ? { accent: true } : {}),
    };
  });
}

/** From a position to the next open bars; `undefined` when none follow. */
function beforeOpen(score: Score, from: Fraction): Fraction | undefined {
  for (const { bars } of score.open) {
    const bar = score.bars.find((each) => each.bar === bars[0]);
    if (bar && compare(exactly(bar.position), from) > 0) return subtract(exactly(bar.position), from);
  }
  return undefined;
}

function shorter(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) <= 0 ? a : b;
}
