import type { Phrase, Worded } from "../../base/index.js";
import type { Advanced, DrillCompleted, GoneBack } from "../../schema/index.js";
import { settingPhrases } from "../../words/index.js";
import { gateSaid } from "../gate/gate.js";
import type { EventDraft } from "../journal/event/writer.js";
import { say } from "../say.js";

/** Why a decision was made, from its event alone, so that it can be told again. */
export function reasonSaid(decision: EventDraft<Advanced | DrillCompleted | GoneBack>): Worded {
  if (decision.kind === "gone back")
    return say("progress.back", { takes: decision.after, change: changeSaid(decision.from, decision.to) });
  const gate = gateSaid(decision.gate).message;
  const earned = decision.credit !== undefined;
  if (decision.kind === "drill completed") {
    const { drill } = decision;
    return earned ? say("progress.earned-before-last", { drill }) : say("progress.gate-met-last", { gate, drill });
  }
  const change = changeSaid(decision.from, decision.to);
  return earned ? say("progress.earned-before", { change }) : say("progress.gate-met", { gate, change });
}

/** The settings of the rung `to` that differ from those of `from`: "silence 1/2 bar, tempo 88". */
export function changeSaid(from: string, to: string): readonly (string | Phrase)[] {
  const before = new Set(from.split(","));
  const changed = to.split(",").filter((setting) => !before.has(setting));
  return settingPhrases(changed.length === 0 ? to : changed.join(","));
}

/** The drills that a decision opened; nothing when there are none. */
export function openedSaid(drills: readonly string[]): readonly Worded[] {
  return drills.length === 0 ? [] : [say("progress.opened", { drills })];
}
