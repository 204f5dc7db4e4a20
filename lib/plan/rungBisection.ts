import { type Drill, type Rung, rungs } from "../drill/index.js";

/**
 * First rung, in the order of climbing, that is too hard; `undefined` when none is.
 *
 * It is found by bisection along each ladder, from the last to climb to the first, so that a drill with 10^9 rungs takes some dozens of
 * questions. It is the first when no ladder gets easier upwards. Where one does, the rung found is still too hard and the one before it is
 * not.
 */
export function firstTooHard(drill: Drill, isTooHard: (rung: Rung) => boolean): Rung | undefined {
  const all = rungs(drill);
  const hard = (index: number): boolean => isTooHard(all.at(index));
  if (hard(0)) return all.at(0);
  // Ends of longer and longer rounds: the top of the first ladder, then that of the second with the first at its top, and so on.
  const ends = roundEnds(drill);
  let low = 0;
  let round = 0;
  while (round < ends.length && !hard(ends[round]!.last)) low = ends[round++]!.last;
  if (round === ends.length) return undefined;
  // Bisection between `low`, which is not too hard, and the end of that round: by whole turns of the ladders below, then by shorter ones.
  let high = ends[round]!.last;
  for (let level = round; level >= 0; level--) {
    const turn = ends[level]!.turn;
    let [fits, fails] = [0, Math.ceil((high - low) / turn)];
    while (fails - fits > 1) {
      const middle = Math.floor((fits + fails) / 2);
      if (hard(Math.min(high, low + middle * turn))) fails = middle;
      else fits = middle;
    }
    high = Math.min(high, low + fails * turn);
    low += fits * turn;
  }
  return all.at(high);
}

/** For each ladder, the index at which it first stands on its top with all before it, and the rungs between two of its steps. */
function roundEnds({ ladders }: Drill): readonly { readonly last: number; readonly turn: number }[] {
  let turn = 1;
  let last = 0;
  return ladders.map(({ count, restart }) => {
    last += (count - 1) * turn;
    const end = { last, turn };
    turn *= restart === "bottom" ? count : Math.min(restart + 1, count);
    return end;
  });
}
