import { problemsIn, success } from "../../base/index.js";
import type { InstrumentDocument } from "../../schema/index.js";
import { problem } from "../codes.js";
import { parseInterval } from "../interval.js";
import type { Instrument } from "../model.js";
import { midiNumber, parsePitch } from "../pitch.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";

/**
 * Compiles an instrument that a curriculum describes. `sounds` is the interval from written to sounding pitch (as written when absent). The range
 * is in written pitch.
 *
 * Problems: INTERVAL_NOT_READ, FORMER_SPELLING, PITCH_NOT_READ, PITCH_OUT_OF_RANGE, INSTRUMENT_RANGE_EMPTY; pointers are relative to the document.
 */
export function compileInstrument(name: string, document: InstrumentDocument): Result<Instrument> {
  const transposition = parseInterval(document.sounds ?? "as written");
  const lowest = parsePitch(document.lowest);
  const highest = document.highest === undefined ? success(undefined) : parsePitch(document.highest);
  const problems: Problem[] = [
    ...problemsIn(transposition, "/sounds"),
    ...problemsIn(lowest, "/lowest"),
    ...problemsIn(highest, "/highest"),
  ];
  if (!transposition.ok || !lowest.ok || !highest.ok) return { ok: false, problems };
  if (highest.value && midiNumber(highest.value) < midiNumber(lowest.value)) {
    const message = say("pattern-problem.instrument-range-empty", {
      instrument: name,
      highest: document.highest!,
      lowest: document.lowest,
    });
    const remedy = say("pattern-problem.instrument-range-empty-remedy");
    return { ok: false, problems: [problem("INSTRUMENT_RANGE_EMPTY", message, { pointer: "/highest" }, remedy)] };
  }
  return success({
    name,
    transposition: transposition.value,
    lowest: lowest.value,
    ...(highest.value ? { highest: highest.value } : {}),
    clef: document.clef ?? "treble",
  });
}
