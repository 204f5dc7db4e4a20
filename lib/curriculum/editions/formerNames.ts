import type { Problem, Worded } from "../../base/index.js";
import type { Drill } from "../../drill/index.js";
import { type DrillDocument, pointerTo } from "../../schema/index.js";
import { problem } from "../codes.js";
import type { Curriculum } from "../model.js";
import { say } from "../say.js";

type Drills = Readonly<Record<string, Pick<DrillDocument, "formerly">>>;

/** Former name -> present name of drills. FORMER_NAME_IN_USE for each former name that a drill still has or that two drills claim, because credit could go to either. */
export function formerNames(drills: Drills): {
  readonly names: Readonly<Record<string, string>>;
  readonly problems: readonly Problem[];
} {
  const claimed = new Map<string, string>();
  const problems: Problem[] = [];
  for (const { name, former, pointer } of claims(drills)) {
    const holder = Object.hasOwn(drills, former) ? former : claimed.get(former);
    if (holder === undefined) claimed.set(former, name);
    else {
      const message = nameInUse(name, former, holder);
      problems.push(
        problem("FORMER_NAME_IN_USE", message, { pointer }, say("curriculum-problem.former-name-in-use-remedy")),
      );
    }
  }
  return { names: Object.fromEntries(claimed), problems };
}

/** The drill with a name, or the drill that had it in an earlier edition; `undefined` when there is none. */
export function drillCalled({ drills, formerly }: Curriculum, name: string): Drill | undefined {
  const present = Object.hasOwn(formerly, name) ? formerly[name] : undefined;
  return drills.find((drill) => drill.name === name) ?? drills.find((drill) => drill.name === present);
}

/**
 * The drill of the edition `now` that continues a drill of another edition: the drill of the same name, else the drill that states the
 * name as a former name. For the way back to an edition before a renaming, `before` (the edition that is left) gives the former name.
 * When several former names are there, credit could go to any of them, and the answer is `undefined`, as it is when there is no such drill.
 */
export function successorIn(now: Curriculum, name: string, before?: Curriculum): Drill | undefined {
  const present = drillCalled(now, name);
  if (present !== undefined) return present;
  const called = (wanted: string | undefined): Drill | undefined => now.drills.find((drill) => drill.name === wanted);
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

function nameInUse(name: string, former: string, holder: string): Worded {
  const names = { drill: JSON.stringify(name), former: JSON.stringify(former) };
  if (former !== name && holder !== former && holder !== name)
    return say("curriculum-problem.former-name-in-use-claimed", { ...names, other: JSON.stringify(holder) });
  const cause = former === name ? "present" : holder === former ? "used" : "twice";
  return say("curriculum-problem.former-name-in-use", { ...names, cause });
}
