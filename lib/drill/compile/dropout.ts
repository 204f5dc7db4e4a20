import type { DrillDocument } from "../../schema/index.js";
import type { Drill, DropoutPlace } from "../model.js";
import { say } from "../say.js";
import type { Collector } from "./collector.js";
import type { DrillNames } from "./place.js";
import { readSetting } from "./settings.js";

/** Default of the schema: the seed of a random place. */
const USUAL_SEED = 1;

/** Compiles the place of a drill's silences; `undefined` for a drill without silences. */
export function compileDropout(document: DrillDocument, names: DrillNames, found: Collector): Drill["dropout"] {
  const climbs = (document.ladders ?? []).some((ladder) => ladder.dropout !== undefined || ladder.grows !== undefined);
  const { dropout } = document;
  const { pattern } = names;
  if (dropout === undefined && !climbs) {
    const parts = (document.ladders ?? []).findIndex((ladder) => ladder.parts !== undefined);
    if (parts >= 0) {
      const message = say("drill-problem.ladder-changes-nothing");
      const remedy = say("drill-problem.ladder-changes-nothing-remedy");
      found.add("LADDER_CHANGES_NOTHING", message, `/ladders/${parts}/parts`, remedy);
    }
    return undefined;
  }
  if (dropout?.length === undefined && dropout?.grows === undefined && !climbs) {
    const remedy = say("drill-problem.write-for-instance", { example: "length: 1/2 bar" });
    found.add("DROPOUT_WITHOUT_LENGTH", say("drill-problem.dropout-without-length"), "/dropout", remedy);
  }
  if (dropout?.["let-ring"] !== undefined)
    found.keep(readSetting("parts", dropout["let-ring"], names), "/dropout/let-ring");
  const place = placeOf(dropout?.at ?? "end", dropout?.seed ?? USUAL_SEED);
  return { place, letRing: dropout?.["let-ring"] ?? [] };

  function placeOf(at: NonNullable<NonNullable<DrillDocument["dropout"]>["at"]>, seed: number): DropoutPlace {
    if (at === "end" || at === "start") return { at };
    if (at === "random") return { at, seed };
    const last = pattern.bars.length;
    at.forEach((bar, i) => {
      if (bar >= 1 && bar <= last) return;
      const message = say("drill-problem.dropout-bar-outside-pattern", {
        pattern: pattern.name,
        last,
        found: String(bar),
      });
      const remedy = say("drill-problem.write-bar", { last: String(last) });
      found.add("DROPOUT_BAR_OUTSIDE_PATTERN", message, `/dropout/at/${i}`, remedy);
    });
    const bars = [...new Set(at.filter((bar) => bar >= 1 && bar <= last))].sort((a, b) => a - b);
    return bars.length === 0 ? { at: "end" } : { at: "bars", bars };
  }
}
