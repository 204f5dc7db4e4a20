import { type Problem, problemsOf, type Score } from "../index.js";
import { familyOfInstrument, INSTRUMENT_FAMILIES, type InstrumentFamily } from "../listen/index.js";
import { fileCodes } from "./codes.js";

const problem = problemsOf(fileCodes);

/** What is taken when nothing is known; our choice: its attacks lie between those that are struck and those that are blown. */
const ASSUMED: InstrumentFamily = "plucked";

export interface ChosenFamily {
  readonly family: InstrumentFamily;
  readonly advice: readonly Problem[];
}

/**
 * How the notes of a recorded instrument begin: as said; else by the instrument of the student's part, or as a part of drum voices; else by those the
 * drill is written out for, when they all agree. FAMILY_ASSUMED when nothing of that helps.
 */
export function familyFor(
  said: InstrumentFamily | undefined,
  { score, players = [] }: { readonly score?: Score; readonly players?: readonly string[] },
): ChosenFamily {
  const part = score?.parts.find(({ student }) => student);
  const isDrums = part !== undefined && part.notes.length > 0 && part.notes.every(({ voice }) => voice !== undefined);
  const byPlayers = new Set(players.map(familyOfInstrument));
  const family =
    said ??
    (part?.instrument === undefined ? undefined : familyOfInstrument(part.instrument)) ??
    (isDrums ? "percussive" : undefined) ??
    (byPlayers.size === 1 ? [...byPlayers][0] : undefined);
  if (family !== undefined) return { family, advice: [] };
  const message = `nothing says how notes begin on the instrument that was recorded; it is listened to as ${ASSUMED}`;
  const remedy = `say --family ${INSTRUMENT_FAMILIES.join(", --family ").replace(/, (?=[^,]*$)/, " or ")}`;
  return { family: ASSUMED, advice: [problem("FAMILY_ASSUMED", message, {}, remedy)] };
}
