import { type Part, secondsPerWhole } from "../../pattern/index.js";
import { decimalText } from "../../time/index.js";
import type { Drill } from "../model.js";
import { say } from "../say.js";
import { recordedOf } from "../variants.js";
import { type CheckContext, valuesInForce } from "./context.js";
import { extremeTempi } from "./tempo.js";

/** How much slower and faster than it was played a recording still sounds like itself. Our choice, from listening to drums: below, attacks smear; above, the room between them goes. */
const SLOWEST = 0.7;
const FASTEST = 1.3;

/** Checks that the recordings of a drill's pattern can be heard at its tempi, in its keys, and with its silences. */
export function checkRecorded(context: CheckContext): void {
  const { drill, found } = context;
  for (const part of drill.pattern.parts) {
    if (part.recorded === undefined) continue;
    checkStretch(context, part);
    checkKey(context, part);
    const index = drill.dropout?.letRing.indexOf(part.name) ?? -1;
    if (index < 0) continue;
    const message = say("drill-problem.recorded-cannot-ring", { part: part.name });
    const remedy = say("drill-problem.recorded-cannot-ring-remedy", { part: part.name });
    found.add("RECORDED_CANNOT_RING", message, `/dropout/let-ring/${index}`, remedy);
  }
}

function checkStretch({ drill, found, pointerOf }: CheckContext, part: Part): void {
  const extremes = extremeTempi(drill);
  if (extremes === undefined) return;
  for (const variant of valuesInForce(drill, "variant"))
    for (const tempo of [extremes.slowest, extremes.fastest]) {
      const own = secondsPerWhole({ tempo, beat: drill.beat });
      const speeds = (recordedOf(part, variant) ?? []).map((recording) => secondsPerWhole(recording) / own);
      if (speeds.length === 0 || speeds.some((speed) => speed >= SLOWEST && speed <= FASTEST)) continue;
      const nearest = speeds.reduce((a, b) => (Math.abs(Math.log(b)) < Math.abs(Math.log(a)) ? b : a));
      const given = { part: part.name, tempo: decimalText(tempo), percent: Math.round(100 * nearest) };
      const message = say("drill-problem.recorded-stretched-far", given);
      const remedy = say("drill-problem.recorded-stretched-far-remedy", { tempo: decimalText(tempo) });
      found.add("RECORDED_STRETCHED_FAR", message, pointerOf("tempo"), remedy);
      return;
    }
}

/** A recording that nothing says the pitch of is taken for drums; in another key that may be wrong. */
function checkKey({ drill, found, pointerOf }: CheckContext, part: Part): void {
  if (!part.staysInKey || part.kind === "percussion" || !isMoved(drill)) return;
  const message = say("drill-problem.recorded-stays-in-key", { part: part.name });
  const remedy = say("drill-problem.recorded-stays-in-key-remedy");
  found.add("RECORDED_STAYS_IN_KEY", message, pointerOf("key"), remedy);
}

function isMoved(drill: Drill): boolean {
  return valuesInForce(drill, "key").some((key) => key !== undefined);
}
