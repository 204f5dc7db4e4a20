import type { Label } from "../../formats/sound/index.js";
import type { Score } from "../../schema/index.js";

/** The usual caution, written into every sound file and record; local rules and licensed practice come first. */
export const CAUTION: string =
  "Play it back no louder than you need to hear it beside your instrument, rest your ears and hands between takes, and stop when " +
  "anything hurts or your ears ring. The rules of your school, employer or country on sound levels and breaks come first.";

/** The label of a score's sound file, in the words of the score. */
export function labelOf(score: Score): Label {
  const course = score.curriculum === undefined ? "" : `${score.curriculum} ${score.edition ?? ""}`.trim() + ", ";
  return {
    title: `${course}${score.drill}, ${score.rung}, mix ${score.mix}`,
    comment: CAUTION,
    software: "leeway",
  };
}
