import type { Drill } from "../drill/index.js";
import type { Curriculum } from "./model.js";

/**
 * The drill of an edition that carries on a drill of another one: the one of the same name, else the one that states it as a former
 * name. From an edition back to one before a renaming, `before` (the edition left) tells the former name; where several former names
 * are there, credit could follow any of them, and none does. `undefined`: the edition does not have the drill.
 */
export function successorIn(now: Curriculum, name: string, before?: Curriculum): Drill | undefined {
  const called = (wanted: string | undefined): Drill | undefined => now.drills.find((drill) => drill.name === wanted);
  const present = called(name);
  if (present !== undefined) return present;
  const renamed = Object.hasOwn(now.formerly, name) ? called(now.formerly[name]) : undefined;
  if (renamed !== undefined) return renamed;
  const former = Object.entries(before?.formerly ?? {})
    .filter(([from, to]) => to === name && called(from) !== undefined)
    .map(([from]) => from);
  return former.length === 1 ? called(former[0]) : undefined;
}
