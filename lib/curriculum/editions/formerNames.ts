import type { Problem } from "../../base/index.js";
import type { Drill } from "../../drill/index.js";
import { type DrillDocument, pointerTo } from "../../schema/index.js";
import { problem } from "../codes.js";
import type { Curriculum } from "../model.js";

type Drills = Readonly<Record<string, Pick<DrillDocument, "formerly">>>;

/** Former name -> present name, and FORMER_NAME_IN_USE for each former name that a drill still has or that two claim: credit could follow either. */
export function formerNames(drills: Drills): {
  readonly names: Readonly<Record<string, string>>;
  readonly problems: readonly Problem[];
} {
  const claimed = new Map<string, string>();
  const problems: Problem[] = [];
  for (const { name, former, pointer } of claims(drills)) {
    const cause = causeAgainst(name, former, Object.hasOwn(drills, former) ? former : claimed.get(former));
    if (cause === undefined) claimed.set(former, name);
    else {
      const message = `${JSON.stringify(name)} cannot take over what was shown in ${JSON.stringify(former)}: ${cause}`;
      problems.push(problem("FORMER_NAME_IN_USE", message, { pointer }, "leave this former name out"));
    }
  }
  return { names: Object.fromEntries(claimed), problems };
}

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

function* claims(
  drills: Drills,
): Iterable<{ readonly name: string; readonly former: string; readonly pointer: string }> {
  for (const [name, { formerly }] of Object.entries(drills)) {
    if (formerly === undefined) continue;
    if (typeof formerly === "string")
      yield { name, former: formerly, pointer: pointerTo(["drills", name, "formerly"]) };
    else
      for (const [i, former] of formerly.entries())
        yield { name, former, pointer: pointerTo(["drills", name, "formerly", i]) };
  }
}

function causeAgainst(name: string, former: string, holder: string | undefined): string | undefined {
  if (holder === undefined) return undefined;
  if (former === name) return "it is its present name";
  if (holder === former) return "a drill still has that name";
  return holder === name ? "it is listed twice" : `${JSON.stringify(holder)} claims that name too`;
}
