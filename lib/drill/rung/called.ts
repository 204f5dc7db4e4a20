import type { Drill, Settings } from "../model.js";
import { type Rung, rungs } from "./rungs.js";
import { readSettings } from "./settings.js";

/** The rung of a drill with the settings that a text says, all of them; `undefined` without a drill or a text, or when the drill has no such rung. */
export function rungCalled(drill: Drill | undefined, text: string | undefined): Rung | undefined {
  const index = rungIndex(drill, text);
  return index === undefined ? undefined : rungs(drill!).at(index);
}

/** The index of that rung, from 0. */
export function rungIndex(drill: Drill | undefined, text: string | undefined): number | undefined {
  if (drill === undefined || text === undefined) return undefined;
  const settings = readSettings(text);
  return settings && rungs(drill).indexOf(settings as Settings);
}
