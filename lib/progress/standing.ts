import type { DrillStanding, RungStanding, Standing, Verdict } from "../schema/index.js";
import { canonicalJson } from "./canonicalJson.js";

/** A standing as canonical JSON: equal standings are equal texts. */
export function standingText(standing: Standing): string {
  return canonicalJson(standing);
}

/** Where the student is in a drill; `undefined` when the journal does not mention it. */
export function drillStanding(standing: Standing, drill: string): DrillStanding | undefined {
  return standing.drills.find((held) => held.drill === drill);
}

/** What was shown on a rung; `undefined` when nothing was played to it and the student was never on it. */
export function rungStanding(drill: DrillStanding, rung: string): RungStanding | undefined {
  return drill.rungs.find((held) => held.rung === rung);
}

const VERDICTS: Readonly<Record<string, Verdict>> = { w: "within", b: "beyond", u: "unclear" };

/** What was counted of a take: drill, rung and verdict; `undefined` when it was not counted. */
export function takeIn(
  standing: Standing,
  take: string,
): { readonly drill: string; readonly rung: string; readonly verdict: Verdict } | undefined {
  for (const { drill, rungs } of standing.drills) {
    for (const { rung, takes, outcomes } of rungs) {
      const place = takes.indexOf(take);
      if (place >= 0) return { drill, rung, verdict: VERDICTS[outcomes[place]!]! };
    }
  }
  return undefined;
}

/** Whether a drill is complete, as drills that need it see it. */
export function isCompleted(standing: Standing, drill: string): boolean {
  return drillStanding(standing, drill)?.completed !== undefined;
}
