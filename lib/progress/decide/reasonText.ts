import type { Advanced, DrillCompleted, GoneBack } from "../../schema/index.js";
import { gateText } from "../gate/gate.js";
import type { EventDraft } from "../journal/eventWriter.js";

/** Why a decision was made, from its event alone, so that it can be told again. */
export function reasonOf(decision: EventDraft<Advanced | DrillCompleted | GoneBack>): string {
  if (decision.kind === "gone back")
    return `${rowText(decision.after)}: back to ${changeText(decision.from, decision.to)}, and on from there when the gate is met anew.`;
  const why =
    decision.credit === undefined
      ? `The gate is met (${gateText(decision.gate)})`
      : "This rung was earned before, and this take confirms it";
  return decision.kind === "advanced"
    ? `${why}: on to ${changeText(decision.from, decision.to)}.`
    : `${why}: drill ${decision.drill} is complete.`;
}

/** The last takes in a row that were beyond tolerance, in words. */
export function rowText(takes: number): string {
  return takes === 1 ? "The last take was beyond tolerance" : `The last ${takes} takes were beyond tolerance`;
}

/** The settings of the rung `to` that differ from those of `from`, in words: "tempo 88, dropout 1/2 bar". */
export function changeText(from: string, to: string): string {
  const before = new Set(from.split(","));
  const changed = to.split(",").filter((setting) => !before.has(setting));
  return (changed.length === 0 ? to.split(",") : changed).map((setting) => setting.replace("=", " ")).join(", ");
}

/** The drills that a decision opened, in words, to follow its reason; empty when there are none. */
export function openedText(drills: readonly string[]): string {
  return drills.length === 0 ? "" : ` Now open: ${drills.join(", ")}.`;
}
