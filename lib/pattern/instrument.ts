import { type Problem, placedUnder, type Result, success } from "../base/index.js";
import type { InstrumentDocument } from "../schema/index.js";
import { problem } from "./codes.js";
import { parseInterval } from "./interval.js";
import type { Instrument } from "./model.js";
import { midiNumber, parsePitch } from "./pitch.js";

/**
 * An instrument as a curriculum describes it. `sounds` is the interval from written to sounding (P1 when absent); the range is written pitch.
 *
 * Problems: INTERVAL_NOT_READ, PITCH_NOT_READ, PITCH_OUT_OF_RANGE, INSTRUMENT_RANGE_EMPTY; pointers are relative to the document.
 */
export function compileInstrument(name: string, document: InstrumentDocument): Result<Instrument> {
  const transposition = parseInterval(document.sounds ?? "P1");
  const lowest = parsePitch(document.lowest);
  const highest = document.highest === undefined ? success(undefined) : parsePitch(document.highest);
  const problems: Problem[] = [
    ...(transposition.ok ? [] : transposition.problems.map((p) => placedUnder(p, "/sounds"))),
    ...(lowest.ok ? [] : lowest.problems.map((p) => placedUnder(p, "/lowest"))),
    ...(highest.ok ? [] : highest.problems.map((p) => placedUnder(p, "/highest"))),
  ];
  if (!transposition.ok || !lowest.ok || !highest.ok) return { ok: false, problems };
  if (highest.value && midiNumber(highest.value) < midiNumber(lowest.value)) {
    const message = `the highest note of ${name} is at or above its lowest; found ${document.highest} above ${document.lowest}`;
    return { ok: false, problems: [problem("INSTRUMENT_RANGE_EMPTY", message, { pointer: "/highest" })] };
  }
  return success({
    name,
    transposition: transposition.value,
    lowest: lowest.value,
    ...(highest.value ? { highest: highest.value } : {}),
    clef: document.clef ?? "treble",
  });
}
