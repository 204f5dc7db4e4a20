import type { Random } from "../base/index.js";
import type { QueuedTake } from "./takeQueue.js";

/** Interleaved practice: the same takes, those of different drills taking turns in an order by chance. Warm-up and build-up stay first. */
export function interleave(takes: readonly QueuedTake[], chance: Random): readonly QueuedTake[] {
  const first = takes.filter(({ kind }) => kind === "warm-up" || kind === "build-up");
  const byDrill = new Map<string, QueuedTake[]>();
  for (const each of takes.filter((other) => !first.includes(other)))
    byDrill.set(each.rung.drill.name, [...(byDrill.get(each.rung.drill.name) ?? []), each]);
  const piles = [...byDrill.values()].map((pile) => ({ pile, lot: chance.uniform() })).sort((a, b) => a.lot - b.lot);
  const longest = Math.max(0, ...piles.map(({ pile }) => pile.length));
  return [
    ...first,
    ...Array.from({ length: longest }, (_, i) => piles.flatMap(({ pile }) => pile.slice(i, i + 1))).flat(),
  ];
}
