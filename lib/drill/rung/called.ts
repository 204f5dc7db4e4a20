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
  const found = known.get(drill) ?? new Map<string, number>();
  known.set(drill, found);
  let index = found.get(text);
  if (index === undefined) {
    const settings = readSettings(text);
    index = settings && rungs(drill).indexOf(settings as Settings);
    // A text that is no rung may be any.
    if (index !== undefined && found.size < MOST_KNOWN) found.set(text, index);
  }
  return index;
}

/** Rungs of a drill that are found by their text at once: our choice, more than students climb. */
const MOST_KNOWN = 1000;
const known = new WeakMap<Drill, Map<string, number>>();
