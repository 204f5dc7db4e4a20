import type { Problem } from "../base/index.js";
import { INSTRUMENTS, type Instrument, instrumentNamed, unknownInstrument } from "../pattern/index.js";
import { type CurriculumDocument, pointerTo } from "../schema/index.js";

/** Players of the course whose instrument is neither in the table nor written, also when no drill can be read; `own` are the names written. */
export function playerProblems(document: CurriculumDocument, own: readonly string[]): readonly Problem[] {
  return (document.players ?? []).flatMap((player, i) => {
    const name = typeof player === "string" ? player : player.instrument;
    if (own.includes(name) || instrumentNamed(name, {}) !== undefined) return [];
    const pointer = pointerTo(typeof player === "string" ? ["players", i] : ["players", i, "instrument"]);
    return [unknownInstrument(name, Object.fromEntries(own.map((each) => [each, ANY_INSTRUMENT])), pointer)];
  });
}

/** Stands for an instrument of which only the name matters. */
const ANY_INSTRUMENT: Instrument = INSTRUMENTS.piano!;
