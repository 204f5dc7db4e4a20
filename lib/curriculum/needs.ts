import { nearestName, renamedTo, type Worded } from "../base/index.js";
import type { DrillDocument } from "../schema/index.js";
import { pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { MOST_COMPARED } from "./limits.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";

/** Drill -> the drills it needs, all of them known. */
type Needs = ReadonlyMap<string, readonly string[]>;
type Drills = Readonly<Record<string, Pick<DrillDocument, "needs">>>;

/**
 * Problems in the graph of needs between drills: DRILL_UNKNOWN, NEEDS_ITSELF once for each cycle, and DRILL_UNREACHABLE for each drill
 * that needs a drill on a cycle, directly or through others. `known` are the names of all drills, also of drills that are not among
 * `drills` because they are ill-formed.
 */
export function needsProblems(drills: Drills, known: readonly string[] = Object.keys(drills)): readonly Problem[] {
  const names = new Set(known);
  let unknown = 0;
  const problems: Problem[] = [];
  const needs = new Map<string, readonly string[]>();
  for (const [name, drill] of Object.entries(drills)) {
    needs.set(
      name,
      // An ill-formed drill is on no cycle: its own needs are not known.
      (drill.needs ?? []).filter((need) => Object.hasOwn(drills, need)),
    );
    for (const [i, need] of (drill.needs ?? []).entries()) {
      if (names.has(need)) continue;
      unknown += 1;
      problems.push(
        unknownDrill([name, need, i], unknown * known.length > MOST_COMPARED ? known.slice(0, MOST_NAMES) : known),
      );
    }
  }
  const cycles = cyclesIn(needs);
  const onCycles = new Set(cycles.flat());
  for (const cycle of cycles) problems.push(needsItself(cycle, drills));
  for (const [name, blocking] of blockedBy(needs, onCycles)) {
    const need = quote(blocking);
    const message = say("curriculum-problem.drill-unreachable", { drill: quote(name), need });
    const pointer = pointerTo(["drills", name, "needs", drills[name]!.needs!.indexOf(blocking)]);
    const remedy = say("curriculum-problem.drill-unreachable-remedy", { need });
    problems.push(problem("DRILL_UNREACHABLE", message, { pointer }, remedy));
  }
  return problems;
}

function unknownDrill(
  [name, need, index]: readonly [name: string, need: string, index: number],
  known: readonly string[],
): Problem {
  const message = say("curriculum-problem.drill-unknown", { drill: quote(name), need: quote(need) });
  const pointer = pointerTo(["drills", name, "needs", index]);
  const others = known.filter((other) => other !== name);
  return problem("DRILL_UNKNOWN", message, { pointer }, choiceOf(others, need));
}

/** Most names listed in a remedy. Our choice: about one line. */
const MOST_NAMES = 8;

function choiceOf(names: readonly string[], found: string): Worded {
  const near = nearestName(found, names) ?? renamedTo(found, names);
  if (near !== undefined) return say("curriculum-problem.write", { text: near });
  return names.length === 0
    ? say("curriculum-problem.drill-unknown-alone-remedy")
    : say("curriculum-problem.write-one-of", { names: names.slice(0, MOST_NAMES) });
}

function needsItself(cycle: readonly string[], drills: Drills): Problem {
  const [first] = cycle as [string];
  const next = cycle[1] ?? first;
  const needs = cycle.map(
    (drill, i) => say("curriculum-problem.needs", { drill: quote(drill), need: quote(cycle[i + 1] ?? first) }).message,
  );
  const message =
    cycle.length === 1
      ? say("curriculum-problem.needs-itself", { drill: quote(first) })
      : say("curriculum-problem.needs-itself-circle", { needs });
  const pointer = pointerTo(["drills", first, "needs", drills[first]!.needs!.indexOf(next)]);
  return problem("NEEDS_ITSELF", message, { pointer }, say("curriculum-problem.needs-itself-remedy"));
}

/** One cycle for each strongly connected set of drills, beginning with the drill written first. Kosaraju's algorithm (1978). */
function cyclesIn(needs: Needs): readonly (readonly string[])[] {
  const neededBy = transposed(needs);
  const finished: string[] = [];
  const seen = new Set<string>();
  for (const name of needs.keys()) searchDepthFirst(name, { edges: needs, seen, finished });
  const found = new Set<string>();
  const position = new Map([...needs.keys()].map((name, i) => [name, i]));
  const cycles: string[][] = [];
  for (const name of finished.reverse()) {
    const group: string[] = [];
    searchDepthFirst(name, { edges: neededBy, seen: found, finished: group });
    if (group.length === 0 || (group.length === 1 && !needs.get(name)!.includes(name))) continue;
    const first = group.reduce((a, b) => (position.get(a)! < position.get(b)! ? a : b));
    cycles.push(shortestCycle(first, new Set(group), needs));
  }
  return cycles.sort((a, b) => position.get(a[0]!)! - position.get(b[0]!)!);
}

interface Search {
  readonly edges: Needs;
  readonly seen: Set<string>;
  readonly finished: string[];
}

/** Depth-first search: adds to `finished` each name that can be reached from `start` and was not seen, after all names it leads to. With a stack of its own, because recursion could overflow. */
function searchDepthFirst(start: string, { edges, seen, finished }: Search): void {
  if (seen.has(start)) return;
  seen.add(start);
  const stack = [{ name: start, next: 0 }];
  for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
    const following = edges.get(top.name)![top.next++];
    if (following === undefined) {
      finished.push(top.name);
      stack.pop();
    } else if (!seen.has(following)) {
      seen.add(following);
      stack.push({ name: following, next: 0 });
    }
  }
}

/** Shortest cycle from `first` back to itself inside a set, by breadth-first search. */
function shortestCycle(first: string, members: ReadonlySet<string>, needs: Needs): string[] {
  const from = new Map<string, string>();
  const waiting = [first];
  for (let name = waiting.shift(); name !== undefined; name = waiting.shift()) {
    for (const need of needs.get(name) ?? []) {
      if (need === first) {
        const way: string[] = [];
        for (let step: string | undefined = name; step !== undefined && step !== first; step = from.get(step))
          way.unshift(step);
        return [first, ...way];
      }
      if (!members.has(need) || from.has(need)) continue;
      from.set(need, name);
      waiting.push(need);
    }
  }
  return [first];
}

/** The drills outside the cycles that need a drill that never opens, each with the first such need. */
function blockedBy(needs: Needs, onCycles: ReadonlySet<string>): readonly (readonly [string, string])[] {
  const neededBy = transposed(needs);
  const closed = new Set(onCycles);
  const waiting = [...onCycles];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    for (const needing of neededBy.get(name)!) {
      if (closed.has(needing)) continue;
      closed.add(needing);
      waiting.push(needing);
    }
  }
  const blocked = [...needs].filter(([name]) => closed.has(name) && !onCycles.has(name));
  return blocked.map(([name, list]) => [name, list.find((need) => closed.has(need))!]);
}

/** The transposed graph: drill -> the drills that need it. */
function transposed(needs: Needs): Needs {
  const neededBy = new Map<string, string[]>([...needs.keys()].map((name) => [name, []]));
  for (const [name, list] of needs) for (const need of list) neededBy.get(need)!.push(name);
  return neededBy;
}

function quote(name: string): string {
  return JSON.stringify(name);
}
