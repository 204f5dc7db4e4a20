import type { LadderDocument } from "../../schema/index.js";
import type { Ladder, Parameter } from "../model.js";
import { odometer } from "../rung/odometer.js";
import { wheelOf } from "../rung/rungs.js";
import { PARAMETERS } from "../rung/settings.js";
import type { Collector } from "./collector.js";
import type { DrillNames, LadderPlace } from "./place.js";
import { compileSteps } from "./steps.js";

/** What a ladder can name: the parameters, and what silences grow to inside a take, which is a value of `dropout`. */
const CLIMBING = [...PARAMETERS, "grows"] as const;

/** Compiles the ladders of a drill: those without problems. Pointers are relative to the drill. */
export function compileLadders(
  documents: readonly LadderDocument[],
  names: DrillNames,
  found: Collector,
): readonly Ladder[] {
  const ladders: Ladder[] = [];
  const climbing = new Set<Parameter>();
  documents.forEach((document, i) => {
    const pointer = `/ladders/${i}`;
    const named = CLIMBING.filter((climbs) => document[climbs] !== undefined);
    const [climbs] = named;
    const parameter = climbs === "grows" ? "dropout" : climbs;
    if (parameter === undefined || named.length > 1) {
      const which = named.length === 0 ? "none" : named.join(" and ");
      const message = `a ladder climbs exactly one of ${CLIMBING.join(", ")}; found ${which}`;
      found.add(
        "LADDER_FORM",
        message,
        pointer,
        named.length > 1 ? "write one ladder for each" : "write for instance tempo: { from: 76, to: 100, by: 8 }",
      );
      return;
    }
    if (climbing.has(parameter)) {
      found.add(
        "LADDER_TWICE",
        `${parameter} climbs on one ladder of a drill; this is the second`,
        `${pointer}/${climbs}`,
        "put all its values on one ladder",
      );
      return;
    }
    climbing.add(parameter);
    const steps = compileSteps(parameter, document, { names, found, pointer: `${pointer}/${climbs}` });
    const restart = readRestart(document.restart ?? "bottom", steps?.count, { found, pointer: `${pointer}/restart` });
    if (steps !== undefined && restart !== undefined) ladders.push({ parameter, ...steps, restart });
  });
  if (!countable(ladders)) {
    const message = "the rungs of a drill can be counted exactly up to 2^53; the ladders of this one multiply to more";
    found.add("TOO_MANY_RUNGS", message, "/ladders", "use larger steps, or fewer ladders");
  }
  return ladders;
}

function readRestart(
  written: string,
  count: number | undefined,
  { found, pointer }: Omit<LadderPlace, "names">,
): Ladder["restart"] | undefined {
  if (written.trim() === "bottom") return "bottom";
  const match = /^(\d{1,15}) rungs? back$/.exec(written.trim());
  if (!match) {
    const message = `a ladder restarts at its bottom or some rungs back from its top; found ${JSON.stringify(written.slice(0, 40))}`;
    found.add("RESTART_NOT_READ", message, pointer, "write bottom, or for instance 2 rungs back");
    return undefined;
  }
  const back = Number(match[1]);
  if (count === undefined || back < count) return back;
  const message = `a ladder with ${count} value${count === 1 ? "" : "s"} restarts at most ${count - 1 === 1 ? "1 rung" : `${count - 1} rungs`} back; found ${back}`;
  found.add("RESTART_BELOW_BOTTOM", message, pointer, "write bottom");
  return undefined;
}

function countable(ladders: readonly Ladder[]): boolean {
  try {
    odometer(ladders.map(wheelOf));
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}
