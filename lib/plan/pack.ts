import { settingsText } from "../drill/index.js";
import type { DemandCache } from "../forecast/index.js";
import { PLAYING_MINUTES, REST_BECAUSE, REST_MINUTES } from "./cautions.js";
import type { PlanLine, PlayLine } from "./model.js";
import { slotSeconds } from "./takeSlot.js";
import type { Wanted } from "./wanted.js";

/**
 * Takes put one after the other as long as they fit, with a rest between rounds and whenever so much playing has gone before; takes of one rung in a row
 * become one line. A take that does not fit any more is passed over, a rest is never last, and nothing goes beyond `seconds`.
 */
export function pack(
  rounds: readonly (readonly Wanted[])[],
  { seconds, demands }: { readonly seconds: number; readonly demands: DemandCache },
): readonly PlanLine[] {
  const lines: PlanLine[] = [];
  let used = 0;
  let playing = 0;
  const takes = rounds.flatMap((round) => round.map((wanted, i) => ({ ...wanted, begins: i === 0 })));
  for (const { kind, rung, chance, because, begins } of takes) {
    const { seconds: length, mix } = demands.of(rung);
    const slot = slotSeconds(length);
    const tired = playing > 0 && (begins || playing + slot > PLAYING_MINUTES * 60);
    const rest = tired ? REST_MINUTES * 60 : 0;
    if (used + rest + slot > seconds) continue;
    if (tired) {
      lines.push({ kind: "rest", from: used, seconds: rest, because: REST_BECAUSE });
      used += rest;
      playing = 0;
    }
    const text = settingsText(rung.settings);
    const last = lines.at(-1);
    const line: PlayLine = {
      kind,
      drill: rung.drill.name,
      rung: text,
      mix,
      takes: 1,
      chance,
      from: used,
      seconds: slot,
      because,
    };
    if (last?.kind === kind && last.drill === line.drill && last.rung === text && last.because === because)
      lines[lines.length - 1] = { ...last, takes: last.takes + 1, seconds: last.seconds + slot };
    else lines.push(line);
    used += slot;
    playing += slot;
  }
  return lines;
}
