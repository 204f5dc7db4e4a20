import { type Drill, rungIndex } from "../../drill/index.js";
import type { Standing, Verdict } from "../../schema/index.js";
import { drillStanding } from "../standing.js";
import { changeText } from "./reasonText.js";
import { decideRung, type RungDecision } from "./rungDecision.js";

/** The decision after a take of this verdict on this rung, which the standing has counted. */
export function decideTake(
  drill: Drill,
  standing: Standing,
  { rung, verdict }: { readonly rung: string; readonly verdict: Verdict },
): RungDecision {
  const held = drillStanding(standing, drill.name);
  const hold = (reason: string): RungDecision => ({ what: "hold", reason, evidence: [] });
  if (verdict === "unclear") return hold("The take is unclear, so it changes nothing.");
  if (held === undefined || held.state === "closed")
    return hold(`Drill ${drill.name} is not open yet: it needs ${drill.needs.join(", ")}. The take is kept.`);
  if (held.state === "complete") return hold(`Drill ${drill.name} is complete; the take is kept.`);
  if (rungIndex(drill, rung) === undefined) return hold("This edition has no such rung; the take is kept.");
  if (held.rung !== rung)
    return hold(
      `The take was played to another rung than the student's (${changeText(rung, held.rung!)}); it is kept.`,
    );
  return decideRung(drill, held);
}
