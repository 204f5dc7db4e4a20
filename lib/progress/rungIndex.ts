import { type Drill, parseSettings, rungs, type Settings } from "../drill/index.js";

/** The index of a rung given by its settings text; `undefined` when the drill, if there is one, has no such rung. */
export function rungIndex(drill: Drill | undefined, rung: string): number | undefined {
  if (drill === undefined) return undefined;
  const settings = parseSettings(rung);
  return settings.ok ? rungs(drill).indexOf(settings.value as Settings) : undefined;
}
