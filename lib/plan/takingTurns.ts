import type { Random } from "../base/index.js";
import type { Wanted } from "./wanted.js";

/** The same takes, those of different drills taking turns; warm-up and build-up stay first. */
export function takingTurns(wanted: readonly Wanted[], chance: Random): readonly Wanted[] {
  const first = wanted.filter(({ kind }) => kind === "warm-up" || kind === "build-up");
  const byDrill = new Map<string, Wanted[]>();
  for (const each of wanted.filter((other) => !first.includes(other)))
    byDrill.set(each.rung.drill.name, [...(byDrill.get(each.rung.drill.name) ?? []), each]);
  const piles = [...byDrill.values()].map((pile) => ({ pile, lot: chance.uniform() })).sort((a, b) => a.lot - b.lot);
  const longest = Math.max(0, ...piles.map(({ pile }) => pile.length));
  return [
    ...first,
    ...Array.from({ length: longest }, (_, i) => piles.flatMap(({ pile }) => pile.slice(i, i + 1))).flat(),
  ];
}
