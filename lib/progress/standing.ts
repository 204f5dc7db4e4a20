import type { DrillStanding, RungStanding, Standing, Verdict } from "../schema/index.js";
import { canonicalJson } from "./journal/canonicalJson.js";
import { takePlaces } from "./takePlaces.js";

/** A standing as canonical JSON: equal standings give equal texts. */
export function standingText(standing: Standing): string {
  return canonicalJson(standing);
}

/**
 * The standing in one drill; `undefined` when the journal does not mention the drill.
 *
 * @example
 * drillStanding(standing, drill.name).state // "open"
 */
export function drillStanding(standing: Standing, drill: string): DrillStanding | undefined {
  return standing.drills.find((held) => held.drill === drill);
}

/**
 * The takes and the credit of one rung; `undefined` when no take was played on it and the student was never on it.
 *
 * @example
 * rungStanding(drillStanding(standing, drill.name), settingsText(rung.settings)).takes.length // 1
 */
export function rungStanding(drill: DrillStanding, rung: string): RungStanding | undefined {
  return drill.rungs.find((held) => held.rung === rung);
}

const VERDICTS: Readonly<Record<string, Verdict>> = { w: "within", b: "beyond", u: "unclear" };

/** The verdicts of the takes of the current stay on a rung, in order; empty without takes. */
export function stayVerdicts({ outcomes, from }: RungStanding): readonly Verdict[] {
  return [...outcomes.slice(from)].map((letter) => VERDICTS[letter]!);
}

/** Drill, rung and verdict of a counted take; `undefined` when the take was not counted. */
export function takeIn(
  standing: Standing,
  take: string,
): { readonly drill: string; readonly rung: string; readonly verdict: Verdict } | undefined {
  for (const { drill, rung, place } of takePlaces(standing).get(take) ?? []) {
    const held = drillStanding(standing, drill);
    const played = held && rungStanding(held, rung);
    if (played?.takes[place] === take) return { drill, rung, verdict: VERDICTS[played.outcomes[place]!]! };
  }
  return undefined;
}

/**
 * Whether a drill has been completed at any time. This opens the drills that need it, also after it was reopened.
 *
 * @example
 * isCompleted(standing, drill.name) // false
 */
export function isCompleted(standing: Standing, drill: string): boolean {
  return drillStanding(standing, drill)?.completed !== undefined;
}
