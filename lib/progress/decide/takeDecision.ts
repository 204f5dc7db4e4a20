import type { Worded } from "../../base/index.js";
import { type Drill, preparationCalled, rungIndex } from "../../drill/index.js";
import type { Standing, Verdict } from "../../schema/index.js";
import { say } from "../say.js";
import { drillStanding } from "../standing.js";
import { changeSaid } from "./reasonSaid.js";
import { decideRung, type RungDecision } from "./rungDecision.js";

/** The decision after a take of this verdict on this rung, which the standing has counted. */
export function decideTake(
  drill: Drill,
  standing: Standing,
  { rung, verdict }: { readonly rung: string; readonly verdict: Verdict },
): RungDecision {
  const held = drillStanding(standing, drill.name);
  const hold = (reason: Worded): RungDecision => ({ what: "hold", reasons: [reason], evidence: [] });
  if (verdict === "unclear") return hold(say("progress.unclear"));
  if (held === undefined || held.state === "closed")
    return hold(say("progress.not-open", { drill: drill.name, needs: drill.needs }));
  if (held.state === "complete") return hold(say("progress.drill-complete", { drill: drill.name }));
  if (rungIndex(drill, rung) === undefined)
    return hold(
      preparationCalled(drill, rung) === undefined ? say("progress.no-such-rung") : say("progress.preparation"),
    );
  if (held.rung !== rung) return hold(say("progress.other-rung", { change: changeSaid(rung, held.rung!) }));
  return decideRung(drill, held);
}
