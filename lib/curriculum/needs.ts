import { nearestName, type Problem } from "../base/index.js";
import type { DrillDocument } from "../schema/index.js";
import { pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";

/** Drill -> the drills it needs, all of them known. */
type Needs = ReadonlyMap<string, readonly string[]>;
type Drills = Readonly<Record<string, Pick<DrillDocument, "needs">>>;

/**
 * Problems with what drills need of each other: DRILL_UNKNOWN, NEEDS_ITSELF once for every circle, and DRILL_UNREACHABLE for drills
 * behind a circle. `known` are the names of all drills, also of those that are not among `drills` because they are broken.
 */
export function needsProblems(drills: Drills, known: readonly string[] = Object.keys(drills)): readonly Problem[] {
  const names = new Set(known);
  const problems: Problem[] = [];
  const needs = new Map<string, readonly string[]>();
  for (const [name, drill] of Object.entries(drills)) {
    needs.set(
      name,
      // A broken drill stands in no circle: what it needs itself is not known.
      (drill.needs ?? []).filter((need) => Object.hasOwn(drills, need)),
    );
    for (const [i, need] of (drill.needs ?? []).entries()) {
      if (!names.has(need)) problems.push(unknownDrill(name, need, i, known));
    }
  }
  const circles = circlesIn(needs);
  const circular = new Set(circles.flat());
  for (const circle of circles) problems.push(needsItself(circle, drills));
  for (const [name, blocking] of behind(needs, circular)) {
    const message = `${quote(name)} never opens, because it needs ${quote(blocking)}, which never opens`;
    const pointer = pointerTo(["drills", name, "needs", drills[name]!.needs!.indexOf(blocking)]);
    problems.push(problem("DRILL_UNREACHABLE", message, { pointer }));
  }
  return problems;
}

function unknownDrill(name: string, need: string, index: number, known: readonly string[]): Problem {
  const message = `${quote(name)} needs the drill ${quote(need)}, and there is no drill of that name`;
  const near = nearestName(
    need,
    known.filter((other) => other !== name),
  );
  const pointer = pointerTo(["drills", name, "needs", index]);
  return problem("DRILL_UNKNOWN", message, { pointer }, near === undefined ? undefined : `write ${near}`);
}

function needsItself(circle: readonly string[], drills: Drills): Problem {
  const [first] = circle as [string];
  const next = circle[1] ?? first;
  const message =
    circle.length === 1
      ? `${quote(first)} needs itself, so it never opens`
      : `${[...circle, first].map(quote).join(" needs ")}, so none of them ever opens`;
  const pointer = pointerTo(["drills", first, "needs", drills[first]!.needs!.indexOf(next)]);
  return problem("NEEDS_ITSELF", message, { pointer }, "take one of these needs out");
}

/** The circles: for every set of drills that need each other, one way round it, beginning with the drill written first. Kosaraju 1978. */
function circlesIn(needs: Needs): readonly (readonly string[])[] {
  const neededBy = turnedRound(needs);
  const finished: string[] = [];
  const seen = new Set<string>();
  for (const name of needs.keys()) visit(name, { edges: needs, seen, finished });
  const found = new Set<string>();
  const position = new Map([...needs.keys()].map((name, i) => [name, i]));
  const circles: string[][] = [];
  for (const name of finished.reverse()) {
    const group: string[] = [];
    visit(name, { edges: neededBy, seen: found, finished: group });
    if (group.length === 0 || (group.length === 1 && !needs.get(name)!.includes(name))) continue;
    const first = group.reduce((a, b) => (position.get(a)! < position.get(b)! ? a : b));
    circles.push(wayRound(first, new Set(group), needs));
  }
  return circles.sort((a, b) => position.get(a[0]!)! - position.get(b[0]!)!);
}

interface Search {
  readonly edges: Needs;
  readonly seen: Set<string>;
  readonly finished: string[];
}

/** Adds to `finished`, after everything it leads to, each name reachable from `start` and not yet seen; with a stack of its own. */
function visit(start: string, { edges, seen, finished }: Search): void {
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

/** The shortest way from `first` back to itself inside a group. */
function wayRound(first: string, members: ReadonlySet<string>, needs: Needs): string[] {
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

/** Drills outside the circles that need one that never opens, with the first such need. */
function behind(needs: Needs, circular: ReadonlySet<string>): readonly (readonly [string, string])[] {
  const neededBy = turnedRound(needs);
  const closed = new Set(circular);
  const waiting = [...circular];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    for (const needing of neededBy.get(name)!) {
      if (closed.has(needing)) continue;
      closed.add(needing);
      waiting.push(needing);
    }
  }
  const blocked = [...needs].filter(([name]) => closed.has(name) && !circular.has(name));
  return blocked.map(([name, list]) => [name, list.find((need) => closed.has(need))!]);
}

/** Drill -> the drills that need it. */
function turnedRound(needs: Needs): Needs {
  const neededBy = new Map<string, string[]>([...needs.keys()].map((name) => [name, []]));
  for (const [name, list] of needs) for (const need of list) neededBy.get(need)!.push(name);
  return neededBy;
}

function quote(name: string): string {
  return JSON.stringify(name);
}
