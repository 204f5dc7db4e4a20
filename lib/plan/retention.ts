import { FSRSAlgorithm, generatorParameters, Rating } from "ts-fsrs";
import type { Curriculum } from "../curriculum/index.js";
import { type Rung, rungCalled } from "../drill/index.js";
import type { History, Played } from "../forecast/index.js";
import { weigh } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import type { Day } from "../time/index.js";

/** Retention of a completed drill. */
export interface Retention {
  readonly rung: Rung;
  /** Days since it was last played; infinite when no take of it is known. */
  readonly days: number;
  /** Chance that it is retained, 0 to 1, by the forgetting curve. */
  readonly kept: number;
  /** Whether its takes, the last ones included, still meet its gate. */
  readonly held: boolean;
}

/**
 * Spaced repetition by FSRS, a scheduler for facts to remember (the ts-fsrs library), with its own parameters. Its forgetting curve is about
 * recall, not about timing, so it only puts reviews in order.
 */
const memory = new FSRSAlgorithm(generatorParameters({ enable_fuzz: false }));
/** Chance of retention below which a review is due: the library's own default, nine in ten. */
export const DUE_BELOW = 0.9;

/**
 * Retention of the rungs on which drills were completed, those no longer held first, then the least retained. The gate says whether a thing
 * is learnt; the scheduler says when to look again. Drills that are not complete, and rungs the edition does not have, are left out.
 */
export function retentionIn(
  curriculum: Curriculum,
  standing: Standing,
  { history, today }: { readonly history: History; readonly today: Day },
): readonly Retention[] {
  const found = standing.drills.flatMap(({ drill: name, completed, withdrawn, state }): Retention[] => {
    const drill = curriculum.drills.find((each) => each.name === name);
    const rung = rungCalled(drill, completed?.rung);
    if (drill === undefined || rung === undefined || withdrawn === true || state !== "complete") return [];
    const played = history.takes.filter(
      (take) => take.drill === name && take.rung === completed!.rung && take.day <= today,
    );
    const last = played.at(-1);
    if (last === undefined) return [{ rung, days: Number.POSITIVE_INFINITY, kept: 0, held: true }];
    const outcomes = played.map(({ verdict }) => verdict[0]!).join("");
    return [
      { rung, days: today - last.day, kept: retentionChance(played, today), held: weigh(drill.gate, outcomes).met },
    ];
  });
  return found.sort((a, b) => Number(a.held) - Number(b.held) || a.kept - b.kept);
}

/**
 * Chance, 0 to 1, that what was played on some days is retained today (retrievability); 0 when there is no clear take. The takes of a day
 * are one review: only clean ones are a success, only ones beyond tolerance a failure, both a success with difficulty. Unclear takes do not
 * count.
 */
export function retentionChance(played: readonly Pick<Played, "day" | "verdict">[], today: Day): number {
  let state: { stability: number; difficulty: number } | null = null;
  let last = today;
  const days = [...new Set(played.map(({ day }) => day))].sort((a, b) => a - b);
  for (const day of days) {
    const verdicts = new Set(played.filter((each) => each.day === day).map(({ verdict }) => verdict));
    const clean = verdicts.has("within");
    const beyond = verdicts.has("beyond");
    if (!clean && !beyond) continue;
    const grade = clean && beyond ? Rating.Hard : clean ? Rating.Good : Rating.Again;
    state = memory.next_state(state, state === null ? 0 : day - last, grade);
    last = day;
  }
  return state === null ? 0 : memory.forgetting_curve(Math.max(0, today - last), state.stability);
}
