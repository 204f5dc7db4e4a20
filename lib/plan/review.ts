import { FSRSAlgorithm, generatorParameters, Rating } from "ts-fsrs";
import type { Curriculum } from "../curriculum/index.js";
import type { Rung } from "../drill/index.js";
import { type History, type Played, rungCalled } from "../forecast/index.js";
import { weigh } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import type { Day } from "../time/index.js";

/** Something once shown that may be fading. */
export interface Fading {
  readonly rung: Rung;
  /** Days since it was last played. */
  readonly days: number;
  /** Chance that it is still there, by the forgetting curve. */
  readonly kept: number;
  /** Whether what was played to it last would still meet its gate. */
  readonly held: boolean;
}

/**
 * When to come back to a thing is left to a scheduler for facts to remember (FSRS, by the ts-fsrs library): its curve is about recall, not
 * about timing, so it only puts the days in order. Its own parameters, and its aim of nine in ten.
 */
const memory = new FSRSAlgorithm(generatorParameters({ enable_fuzz: false }));
/** Below this chance of still being there a thing is due: the library's own default. */
export const DUE_BELOW = 0.9;

/**
 * The rungs on which drills were completed, the most faded first. Whether a thing is learnt is for the gate to say; the scheduler says
 * when to look again. Drills that were never completed, and rungs the edition does not have, are left out.
 */
export function fadingIn(
  curriculum: Curriculum,
  standing: Standing,
  { history, today }: { readonly history: History; readonly today: Day },
): readonly Fading[] {
  const found = standing.drills.flatMap(({ drill: name, completed, withdrawn, state }): Fading[] => {
    const drill = curriculum.drills.find((each) => each.name === name);
    const rung = rungCalled(drill, completed?.rung);
    if (drill === undefined || rung === undefined || withdrawn === true || state !== "complete") return [];
    const played = history.takes.filter(
      (take) => take.drill === name && take.rung === completed!.rung && take.day <= today,
    );
    const last = played.at(-1);
    if (last === undefined) return [{ rung, days: Number.POSITIVE_INFINITY, kept: 0, held: true }];
    const outcomes = played.map(({ verdict }) => verdict[0]!).join("");
    return [{ rung, days: today - last.day, kept: keptChance(played, today), held: weigh(drill.gate, outcomes).met }];
  });
  return found.sort((a, b) => Number(a.held) - Number(b.held) || a.kept - b.kept);
}

/**
 * The chance that what was played on some days is still there today, 0 to 1; 0 when nothing clear was played. The takes of a day are one
 * review: clean ones only are a success, beyond ones only a failure, both a success with difficulty; unclear ones say nothing.
 */
export function keptChance(played: readonly Pick<Played, "day" | "verdict">[], today: Day): number {
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
