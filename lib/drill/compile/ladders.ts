import type { LadderDocument } from "../../schema/index.js";
import type { Ladder, Parameter } from "../model.js";
import { odometer } from "../rung/odometer.js";
import { wheelOf } from "../rung/rungs.js";
import { PARAMETERS } from "../rung/settings.js";
import { say } from "../say.js";
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
      reportForm(named, { found, pointer });
      return;
    }
    if (climbing.has(parameter)) {
      const message = say("drill-problem.ladder-twice", { parameter });
      found.add("LADDER_TWICE", message, `${pointer}/${climbs}`, say("drill-problem.ladder-twice-remedy"));
      return;
    }
    climbing.add(parameter);
    const steps = compileSteps(parameter, document, { names, found, pointer: `${pointer}/${climbs}` });
    const restart = readRestart(document.restart ?? "bottom", steps?.count, { found, pointer: `${pointer}/restart` });
    if (steps !== undefined && restart !== undefined) ladders.push({ parameter, ...steps, restart });
  });
  if (!countable(ladders)) {
    const message = say("drill-problem.too-many-rungs");
    found.add("TOO_MANY_RUNGS", message, "/ladders", say("drill-problem.too-many-rungs-remedy"));
  }
  return ladders;
}

/** A ladder that names nothing it climbs, or several things. */
function reportForm(named: readonly string[], { found, pointer }: Omit<LadderPlace, "names">): void {
  const last = named.at(-1);
  const message =
    last === undefined
      ? say("drill-problem.ladder-form-none", { parameters: CLIMBING })
      : say("drill-problem.ladder-form", { parameters: CLIMBING, others: named.slice(0, -1), last });
  const remedy =
    last === undefined
      ? say("drill-problem.write-for-instance", { example: "tempo: { from: 76, to: 100, by: 8 }" })
      : say("drill-problem.ladder-form-remedy");
  found.add("LADDER_FORM", message, pointer, remedy);
}

function readRestart(
  written: string,
  count: number | undefined,
  { found, pointer }: Omit<LadderPlace, "names">,
): Ladder["restart"] | undefined {
  if (written.trim() === "bottom") return "bottom";
  const match = /^(\d{1,15}) rungs? back$/.exec(written.trim());
  if (!match) {
    const message = say("drill-problem.restart-not-read", { found: JSON.stringify(written.slice(0, 40)) });
    found.add("RESTART_NOT_READ", message, pointer, say("drill-problem.restart-not-read-remedy"));
    return undefined;
  }
  const back = Number(match[1]);
  if (count === undefined || back < count) return back;
  const message = say("drill-problem.restart-below-bottom", { values: count, most: count - 1, found: String(back) });
  found.add("RESTART_BELOW_BOTTOM", message, pointer, say("drill-problem.write", { text: "bottom" }));
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
