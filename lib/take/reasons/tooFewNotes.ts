import type { DropoutFinding, Reason, Score } from "../../schema/index.js";
import { driftLimitOf, isFew } from "../metrics/dropouts.js";
import type { Played } from "../metrics/played.js";

/** The silences that are `unclear`, and of which so few notes were played that they could not have been within. */
export function tooFewNotes(dropouts: readonly DropoutFinding[], tolerance: Score["tolerance"]): Reason[] {
  return dropouts.flatMap((each, dropout): Reason[] => {
    const { verdict, played, from, to, standardErrorMs } = each;
    if (verdict !== "unclear" || played === undefined) return [];
    const limitMs = driftLimitOf(tolerance, { from: 1000 * from, to: 1000 * to });
    const sd = typeof standardErrorMs === "number" ? standardErrorMs : Number.POSITIVE_INFINITY;
    if (!isFew(played, { limitMs, sd })) return [];
    return [{ code: "TOO_FEW_NOTES", says: saysTooFew(played, "this silence"), dropout }];
  });
}

/** The same for all silences that have it, in one sentence to the player; `undefined` when none has. */
export function tooFewNotesInAll(dropouts: readonly DropoutFinding[], reasons: readonly Reason[]): string | undefined {
  const few = reasons.flatMap(({ code, dropout }) =>
    code === "TOO_FEW_NOTES" && dropout !== undefined ? [dropouts[dropout]!.played!] : [],
  );
  const [first] = few;
  if (first === undefined) return undefined;
  if (few.length === 1) return saysTooFew(first, dropouts.length === 1 ? "the silence" : "one silence");
  const least = few.reduce((least, each) => (each.notes * least.of < least.notes * each.of ? each : least));
  const alike = few.every(({ notes, of }) => notes === first.notes && of === first.of);
  const where = few.length === dropouts.length ? "each silence" : `${few.length} of ${dropouts.length} silences`;
  return saysTooFew(least, alike ? where : `a silence, and about as little in ${few.length - 1} more`);
}

function saysTooFew({ notes, of, asked }: Played, where: string): string {
  const played = notes === 0 ? "none of the" : `${notes} of`;
  const need = notes < asked ? ` (${asked} are asked for)` : "";
  return `You played ${played} ${of} notes in ${where}${need}: too few to say whether you kept the time. Play on through the silence.`;
}
