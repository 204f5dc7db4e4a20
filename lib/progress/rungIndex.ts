import { type Drill, parseSettings, rungs, type Settings } from "../drill/index.js";

/** The index of the rung with this settings text; `undefined` without a drill, or when the drill has no such rung. */
export function rungIndex(drill: Drill | undefined, rung: string): number | undefined {
  if (drill === undefined) return undefined;
  const settings = parseSettings(rung);
  return settings.ok ? rungs(drill).indexOf(settings.value as Settings) : undefined;
}
