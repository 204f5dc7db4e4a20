import { CAUTIONS, random, success, type Worded } from "../base/index.js";
import { drillCalled } from "../curriculum/index.js";
import { type Drill, type Rung, settingsText } from "../drill/index.js";
import { type DemandCache, demandCache, historyOf, posteriorOf, TARGET } from "../forecast/index.js";
import { type Day, dayOf } from "../time/index.js";
import { slotSeconds } from "./breaks.js";
import { checkRequest } from "./checkRequest.js";
import { interleave } from "./interleaving.js";
import type { Plan, PlanLine } from "./model.js";
import { chainTo, type Outlook, outlookFor } from "./outlook.js";
import type { Result } from "./problem.js";
import type { PlanRequest } from "./request.js";
import { DUE_BELOW, retentionIn } from "./retention.js";
import { say } from "./say.js";
import { scheduleTakes } from "./schedule.js";
import { settingPhrases } from "./settingPhrases.js";
import { queueTakes } from "./takeQueue.js";
import { type Aim, easyRungs, estimateWork, mayPlay } from "./workEstimate.js";

/** Days of practice a week when a deadline does not say. Our choice. */
const DAYS_A_WEEK = 5;

/**
 * Practice plan for so many minutes: a warm-up, reviews that are due, new work near the success rate aimed at, rests. It is never longer
 * than the minutes, and never has a rung whose needs are unmet or that lies above the student's own. The same request gives the same plan.
 * A plan may be empty; it then says why.
 *
 * Problems: PLAN_MINUTES_OUT_OF_RANGE, PLAN_DATE_NOT_READ, PLAN_CURRICULUM_OTHER, PLAN_OPTION_OUT_OF_RANGE, DEADLINE_PAST,
 * DRILL_UNKNOWN.
 *
 * @example
 * const plan = planSession({ curriculum, standing, events, today: "2026-03-02", minutes: 20, seed: 1 });
 */
export function planSession(request: PlanRequest): Result<Plan> {
  const { curriculum, standing, minutes, seed, order = "one by one" } = request;
  const checked = checkRequest(request);
  if (!checked.ok) return checked;
  const { today } = checked.value;
  const history = historyOf(request.events);
  const demands = demandCache();
  const belief =
    request.belief ??
    posteriorOf(curriculum, history, {
      demands,
      ...(request.population === undefined ? {} : { population: request.population }),
    });
  const aim: Aim = { belief, demands, target: request.target ?? TARGET };
  const chance = random(`${seed}/plan`);
  const work = estimateWork(curriculum, standing, { history, aim, chance });
  const retention = retentionIn(curriculum, standing, { history, today }).filter(({ rung }) =>
    mayPlay(rung.drill, standing, history.placed),
  );
  const due = retention.filter(({ kept, held }) => kept < DUE_BELOW || !held);
  const easy = easyRungs(curriculum, standing, { history, aim });
  const rounds = queueTakes({
    work,
    due: due.length > 0 || work.length > 0 ? due : retention.slice(0, 1),
    easy,
    aim,
    seconds: minutes * 60,
  });
  const queue = order === "taking turns" ? rounds.map((round) => interleave(round, chance)) : rounds;
  const lines = scheduleTakes(queue, { seconds: minutes * 60, demands });
  const advice = [
    ...(lines.length === 0
      ? [emptyAdvice({ work: work.map(({ rung }) => rung), easy: easy.map(({ rung }) => rung), demands })]
      : []),
    ...leftOver(minutes * 60, lines),
    ...(order === "taking turns" && lines.length > 0 ? [say("plan.taking-turns")] : []),
    ...(belief.takes === 0 ? [say("plan.nothing-heard")] : []),
  ];
  const outlook = outlookOf(request, { aim, today, work: work.map(({ rung }) => rung.drill) });
  return success({
    student: standing.student,
    curriculum: curriculum.name,
    edition: curriculum.edition,
    today: request.today,
    minutes,
    seconds: secondsOf(lines),
    lines,
    advice: advice.map(({ says }) => says),
    messages: advice.map(({ message }) => message),
    cautions: CAUTIONS,
    ...(outlook === undefined ? {} : { outlook }),
  });
}

function outlookOf(
  { curriculum, standing, deadline, minutes, seed }: PlanRequest,
  { aim, today, work }: { readonly aim: Aim; readonly today: Day; readonly work: readonly Drill[] },
): Outlook | undefined {
  if (deadline === undefined) return undefined;
  const goals =
    deadline.drill === undefined
      ? curriculum.drills.filter((drill) => work.includes(drill))
      : [drillCalled(curriculum, deadline.drill)!];
  const drills = [...new Set(goals.flatMap((drill) => chainTo(curriculum, standing, drill)))];
  return outlookFor(standing, {
    on: deadline.on,
    days: dayOf(deadline.on)! - today,
    drills,
    minutes: deadline.minutes ?? minutes,
    daysAWeek: deadline.daysAWeek ?? DAYS_A_WEEK,
    aim,
    seed,
  });
}

function emptyAdvice({
  work,
  easy,
  demands,
}: {
  readonly work: readonly Rung[];
  readonly easy: readonly Rung[];
  readonly demands: DemandCache;
}): Worded {
  const all = [...work, ...easy];
  if (all.length === 0) return say("plan.no-drill-open");
  const shortest = all.reduce((least, rung) => (demands.of(rung).seconds < demands.of(least).seconds ? rung : least));
  const seconds = slotSeconds(demands.of(shortest).seconds);
  return say("plan.no-time", {
    drill: shortest.drill.name,
    rung: settingPhrases(settingsText(shortest.settings)),
    seconds,
  });
}

/** Minutes left over from which on advice says so. Our choice. */
const WORTH_A_WORD = 3;

function leftOver(seconds: number, lines: readonly PlanLine[]): readonly Worded[] {
  const minutes = Math.floor((seconds - secondsOf(lines)) / 60);
  if (lines.length === 0 || minutes < WORTH_A_WORD) return [];
  return [say("plan.left-over", { minutes })];
}

function secondsOf(lines: readonly PlanLine[]): number {
  return lines.reduce((sum, { seconds }) => sum + seconds, 0);
}
