import { type Drill, rungs, type Settings, settingsText, unplayedScore } from "../../drill/index.js";
import { blindSlips, SLIP_SHOWN } from "../../take/index.js";

/** Rungs looked at; our choice: what repeats itself shows in far fewer. */
const MOST_RUNGS = 400;

/** What the rhythm of some rungs of a drill shows of one size of slip: the least over their silences. */
export interface SlipsShown {
  /** Settings that bear on it: dropout, variant, open bars. */
  readonly rungs: string;
  readonly slips: readonly { readonly beats: number; readonly logOdds: number }[];
}

/** What onsets alone show of slips on the rungs of a drill; empty without silences. */
export function slipsShown(drill: Drill): readonly SlipsShown[] {
  const all = rungs(drill);
  const shown = new Map<string, SlipsShown>();
  const step = Math.max(1, Math.ceil(all.count / MOST_RUNGS));
  for (let index = 0; index < all.count; index += step) {
    const rung = all.at(index);
    const settings = bearing(rung.settings);
    if (rung.settings.dropout === undefined || shown.has(settings)) continue;
    const least = new Map<number, number>();
    for (const { beats, logOdds } of blindSlips(unplayedScore(rung)))
      least.set(beats, Math.min(least.get(beats) ?? Number.POSITIVE_INFINITY, logOdds));
    const slips = [...least].map(([beats, logOdds]) => ({ beats, logOdds })).sort((a, b) => a.beats - b.beats);
    shown.set(settings, { rungs: settings, slips });
  }
  return [...shown.values()];
}

/** Whether a slip is told for sure, is in doubt, or is taken for a note left out. */
export function toldText(logOdds: number): "told" | "in doubt" | "not told" {
  return logOdds >= SLIP_SHOWN ? "told" : logOdds > -SLIP_SHOWN ? "in doubt" : "not told";
}

function bearing({ dropout, variant, open }: Settings): string {
  return settingsText({
    ...(dropout === undefined ? {} : { dropout }),
    ...(open === undefined ? {} : { open }),
    ...(variant === undefined ? {} : { variant }),
  });
}
