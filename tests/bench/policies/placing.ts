import { random } from "../../../lib/base/index.js";
import { type Drill, type Rung, rungs, scoreOf } from "../../../lib/drill/index.js";
import { beginPlacing, placeAfter } from "../../../lib/plan/index.js";
import { asksOf, type Law, newStudent, playAs, type Student, trueChance } from "./student.js";

/** Share of takes in which the players placed slip. */
const SLIPS = 0.05;
/** Takes by which a true chance is known, and the chance from which on a rung is within reach: ten points below the aim of a placement. */
const CHECKS = 200;
const WITHIN_REACH = 0.75;

/** Where somebody written apart from the library was placed. */
export interface PlacedApart {
  readonly takes: number;
  /** Rungs too high, by true chance: how many rungs that are easier lie out of reach; negative: rungs within reach that are harder. */
  readonly tooHigh: number;
  readonly clean: number;
  /** Whether it ended on "there is no easier rung", and after how many takes. */
  readonly noEasier: number | undefined;
}

/** Places a player of a law who slips in 5 % of takes. */
export function placeApart(drill: Drill, { law, seed }: { readonly law: Law; readonly seed: string }): PlacedApart {
  const student: Student = { ...newStudent(seed, law), slips: SLIPS };
  const asks = (rung: Rung): ReturnType<typeof asksOf> => asksOf(scoreOf(rung));
  const chance = random(`${seed}/placing`);
  let placing = beginPlacing(drill);
  while (!placing.done) placing = placeAfter(placing, playAs(student, asks(placing.rung), chance));
  const all = rungs(drill);
  const truth = Array.from({ length: all.count }, (_, i) => ({
    index: i,
    clean: trueChance(student, asks(all.at(i)), { seed: `${seed}/true ${i}`, takes: CHECKS }),
  })).sort((a, b) => b.clean - a.clean);
  const own = truth.findLastIndex(({ clean }) => clean >= WITHIN_REACH);
  const place = truth.findIndex(({ index }) => index === placing.rung.index);
  return {
    takes: placing.tried.length,
    tooHigh: place - Math.max(0, own),
    clean: truth[place]!.clean,
    noEasier:
      placing.message.key.includes("placed") && placing.says.includes("no easier") ? placing.tried.length : undefined,
  };
}
