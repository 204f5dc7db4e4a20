import type { DropoutFinding, Reason, Score } from "../../schema/index.js";
import { driftLimitOf, isFew } from "../metrics/dropouts.js";
import { reasonOf, say } from "../say.js";

/** The silences that are `unclear`, and of which so few notes were played that they could not have been within. */
export function tooFewNotes(dropouts: readonly DropoutFinding[], tolerance: Score["tolerance"]): Reason[] {
  return dropouts.flatMap((each, dropout): Reason[] => {
    const { verdict, played, from, to, standardErrorMs } = each;
    if (verdict !== "unclear" || played === undefined) return [];
    const limitMs = driftLimitOf(tolerance, { from: 1000 * from, to: 1000 * to });
    const sd = typeof standardErrorMs === "number" ? standardErrorMs : Number.POSITIVE_INFINITY;
    if (!isFew(played, { limitMs, sd })) return [];
    const said = say("take.few-played", { silence: dropout + 1, played: played.notes, notes: played.of });
    return [reasonOf("TOO_FEW_NOTES", said, dropout)];
  });
}
