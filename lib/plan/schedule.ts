import { rungNumber, settingsText } from "../drill/index.js";
import type { DemandCache } from "../forecast/index.js";
import { PLAYING_MINUTES, REST_MINUTES, slotSeconds } from "./breaks.js";
import type { PlanLine, PlayLine } from "./model.js";
import { say } from "./say.js";
import type { QueuedTake } from "./takeQueue.js";

/**
 * Schedule of a session: the takes of all rounds one after the other, as long as they fit into `seconds`. A rest stands between rounds, and
 * before a take that would make it too much playing at a stretch. Takes of one rung in a row are one line. A take that no longer fits is
 * passed over. A rest is never last. No takes: no lines.
 */
export function scheduleTakes(
  rounds: readonly (readonly QueuedTake[])[],
  { seconds, demands }: { readonly seconds: number; readonly demands: DemandCache },
): readonly PlanLine[] {
  const lines: PlanLine[] = [];
  const resting = say("plan.rest");
  let used = 0;
  let playing = 0;
  const takes = rounds.flatMap((round) => round.map((take, i) => ({ ...take, begins: i === 0 })));
  for (const { kind, rung, chance, because, begins } of takes) {
    const { seconds: length, mix } = demands.of(rung);
    const slot = slotSeconds(length);
    const tired = playing > 0 && (begins || playing + slot > PLAYING_MINUTES * 60);
    const rest = tired ? REST_MINUTES * 60 : 0;
    if (used + rest + slot > seconds) continue;
    if (tired) {
      lines.push({ kind: "rest", from: used, seconds: rest, because: resting.says, message: resting.message });
      used += rest;
      playing = 0;
    }
    const text = settingsText(rung.settings);
    const last = lines.at(-1);
    const line: PlayLine = {
      kind,
      drill: rung.drill.name,
      title: rung.drill.title ?? rung.drill.name,
      rung: text,
      number: rungNumber(rung),
      mix,
      takes: 1,
      chance,
      from: used,
      seconds: slot,
      because: because.says,
      message: because.message,
    };
    if (last?.kind === kind && last.drill === line.drill && last.rung === text && last.because === because.says)
      lines[lines.length - 1] = { ...last, takes: last.takes + 1, seconds: last.seconds + slot };
    else lines.push(line);
    used += slot;
    playing += slot;
  }
  return lines;
}
