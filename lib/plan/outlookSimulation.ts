import type { Random } from "../base/index.js";
import { type Drill, rungCalled, rungs, settingsText } from "../drill/index.js";
import { afterPractice, type Calibration, calibrated, chancesOf, drawForm, type Traits } from "../forecast/index.js";
import { drillStanding, rungStanding, weigh } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import { PAUSE_SECONDS, type ShortRest } from "./breaks.js";
import { HARD, MOST_ON_A_RUNG } from "./limits.js";
import type { Aim } from "./workEstimate.js";

/** Share of planned days that are missed. Our choice: one in ten, as lessons and illness come between. */
export const MISSED = 0.1;
/** Share of a session by the plan that is warm-up and review. Our choice, about what plans come out at. */
const FIRST_SHARE = 0.08;
/** Days between two tries of a rung out of reach, as a plan has them. */
const DAYS_BETWEEN_TRIES = 2;
/** Share of a day's practice that is lost with each day without, as `beliefOn` has it. */
const FORGOTTEN = 0.1;

/** The part of a drill that is left to climb. */
export interface Part {
  readonly drill: Drill;
  /** Index of the student's rung. */
  readonly index: number;
  /** Outcomes of the takes on that rung in the present stay. */
  readonly outcomes: string;
}

/** What is left of a drill for a student: all of it when it is not open. */
export function partOf(drill: Drill, standing: Standing): Part {
  const held = drillStanding(standing, drill.name);
  const rung = held?.state === "open" ? rungCalled(drill, held.rung) : undefined;
  if (rung === undefined || held === undefined) return { drill, index: 0, outcomes: "" };
  const shown = rungStanding(held, settingsText(rung.settings));
  return { drill, index: rung.index, outcomes: shown?.outcomes.slice(shown.from) ?? "" };
}

/** How somebody practises until a day. */
export interface Practice {
  readonly sessions: number;
  /** Days from one session to the next, about. */
  readonly gap: number;
  /** Seconds of a session. */
  readonly seconds: number;
  readonly rest: ShortRest;
  readonly by: "the plan" | "the current rung";
}

/** Where a run of the simulation is. */
interface Run {
  part: number;
  index: number;
  stay: string;
  readonly earned: Set<number>;
}

/** One run of the simulation, session by session: whether a player with these traits completes all parts. Of the days planned some are missed. */
export function completes(
  parts: readonly Part[],
  traits: Traits,
  {
    practice,
    aim,
    calibration,
    chance,
  }: {
    readonly practice: Practice;
    readonly aim: Aim;
    readonly calibration: Calibration;
    readonly chance: Random;
  },
): boolean {
  const run: Run = { part: 0, index: parts[0]?.index ?? 0, stay: parts[0]?.outcomes ?? "", earned: new Set() };
  const isPlanned = practice.by === "the plan";
  let now = traits;
  let sinceTry = DAYS_BETWEEN_TRIES;
  for (let session = 0; session < practice.sessions && run.part < parts.length; session++) {
    if (chance.uniform() < MISSED) continue;
    const today = { ...now, form: drawForm(chance) };
    let left = practice.seconds * (isPlanned ? 1 - FIRST_SHARE : 1);
    let [takes, on, rung] = [0, 0, -1];
    let most = Number.POSITIVE_INFINITY;
    let [clean, unclear] = [0, 0];
    while (run.part < parts.length) {
      const { drill } = parts[run.part]!;
      const key = run.part * 1e9 + run.index;
      const { demand, seconds } = aim.demands.of(rungs(drill).at(run.index));
      const cost = seconds + PAUSE_SECONDS + practice.rest.seconds / practice.rest.after;
      if (key !== rung) {
        [rung, on] = [key, 0];
        const found = calibrated(calibration, demand, { chances: chancesOf(today, demand), shifts: "typical" });
        [clean, unclear] = [found.clean, found.unclear];
        if (isPlanned) most = Math.min(MOST_ON_A_RUNG, Math.max(1, Math.floor(practice.seconds / cost / 2)));
      }
      // By a plan the rest of the day goes to easier things once a rung has had its takes, or is out of reach and was tried lately.
      const isTry = isPlanned && clean < HARD;
      if (on >= most || (isTry && (on > 0 || sinceTry < DAYS_BETWEEN_TRIES))) {
        takes += Math.max(0, Math.floor(left / cost));
        break;
      }
      left -= cost;
      if (left < 0) break;
      takes++;
      on++;
      if (isTry) sinceTry = 0;
      const lot = chance.uniform();
      moveOn(run, parts, lot < clean ? "w" : lot < clean + unclear ? "u" : "b");
    }
    sinceTry += practice.gap;
    const after = afterPractice(now, takes * (1 - Math.min(0.5, FORGOTTEN * practice.gap)));
    now = { ...now, ...after };
  }
  return run.part >= parts.length;
}

/** Moves a run by the outcome of a take. */
function moveOn(run: Run, parts: readonly Part[], letter: string): void {
  const { drill } = parts[run.part]!;
  run.stay += letter;
  const to = nextIndex(drill, { index: run.index, stay: run.stay, earned: run.earned.has(run.index) });
  if (to === run.index) return;
  if (to > run.index) run.earned.add(run.index);
  // Going back, what was earned on the way has lapsed.
  else for (const each of [...run.earned]) if (each >= to) run.earned.delete(each);
  [run.index, run.stay] = [to, ""];
  if (to < rungs(drill).count) return;
  run.part++;
  run.earned.clear();
  [run.index, run.stay] = [parts[run.part]?.index ?? 0, parts[run.part]?.outcomes ?? ""];
}

/** Index of the rung after the takes of a stay: onward, back, or the same. */
function nextIndex(
  drill: Drill,
  { index, stay, earned }: { readonly index: number; readonly stay: string; readonly earned: boolean },
): number {
  if (stay.endsWith("w") && (earned || weigh(drill.gate, stay).met)) return index + 1;
  if (drill.goBack === undefined || !stay.endsWith("b")) return index;
  const { after, by } = drill.goBack;
  return new RegExp(`(?:bu*){${after}}$`).test(stay) ? Math.max(0, index - by) : index;
}
