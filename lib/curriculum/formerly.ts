import type { Problem } from "../base/index.js";
import { type DrillDocument, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";

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
