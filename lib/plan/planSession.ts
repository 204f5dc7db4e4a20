import { CAUTIONS, random, success, type Worded } from "../base/index.js";
import { drillCalled } from "../curriculum/index.js";
import { type Drill, type Rung, rungCalled, settingsText } from "../drill/index.js";
import {
  beliefOn,
  canBeClean,
  type DemandCache,
  demandCache,
  type History,
  historyOf,
  posteriorOf,
  TARGET,
} from "../forecast/index.js";
import { drillStanding } from "../progress/index.js";
import { type Day, dayOf } from "../time/index.js";
import { settingPhrases } from "../words/index.js";
import { DAY_MINUTES, type ShortRest, shortRest, slotSeconds } from "./breaks.js";
import { checkRequest } from "./checkRequest.js";
import { reviews, warmUp } from "./firstLines.js";
import { layOut } from "./layOut.js";
import { MOST_ON_A_RUNG } from "./limits.js";
import type { Plan, PlanLine } from "./model.js";
import { planNewWork } from "./newWork.js";
import { chainTo, type Outlook, outlookFor } from "./outlook.js";
import type { Result } from "./problem.js";
import type { PlanRequest } from "./request.js";
import { DUE_BELOW, retentionIn } from "./retention.js";
import { say } from "./say.js";
import type { StepTerms } from "./steps.js";
import { takeTurns } from "./takeTurns.js";
import { type Aim, easyRungs, estimateWork, mayPlay } from "./workEstimate.js";

/** Days of practice a week when a deadline does not say. Our choice. */
const DAYS_A_WEEK = 5;

/**
 * Practice plan for so many minutes: reviews that are due, new work near the success rate aimed at with what follows from how it goes, rests.
 * It is never longer than the minutes nor than an hour, begins with no rung whose needs are unmet or that lies above the student's own, has no rung
 * for more than half of it, and prepares a rung out of reach by easier ones. The same request gives the same plan. A plan may be empty; it then says why.
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
  const known =
    request.belief ??
    posteriorOf(curriculum, history, {
      demands,
      ...(request.population === undefined ? {} : { population: request.population }),
    });
  const belief = beliefOn(known, today);
  const aim: Aim = { belief, demands, target: request.target ?? TARGET };
  const chance = random(`${seed}/plan`);
  const work = estimateWork(curriculum, standing, { history, aim, chance });
  const retention = retentionIn(curriculum, standing, { history, today }).filter(({ rung }) =>
    mayPlay(rung.drill, standing, history.placed),
  );
  const due = retention.filter(({ kept, held, days }) => kept < DUE_BELOW || (!held && days > 0));
  const easy = easyRungs(curriculum, standing, { history, aim });
  const seconds = 60 * Math.min(minutes, DAY_MINUTES);
  const drill = (work[0]?.rung ?? due[0]?.rung ?? easy[0]?.rung)?.drill;
  const rest = shortRest({ instrument: request.instrument, drill });
  const terms = stepTerms(request, { aim, history, today, seconds, rung: work[0]?.rung ?? easy[0]?.rung });
  const played = history.takes.filter(({ day }) => day === today).length;
  const toReview = due.length > 0 || work.length > 0 ? due : retention.slice(0, 1);
  const first = [
    ...(work.length + toReview.length > 0 ? warmUp(easy, terms, { minutes, isFirst: played === 0 }) : []),
    ...reviews(toReview, terms, { seconds, isAll: work.length === 0 }),
  ];
  const found = planNewWork(work, terms, history.takes);
  const layOutTerms = { seconds, rest, played: played % rest.after };
  const lines =
    order === "taking turns" && work.length > 1
      ? layOut({ ...layOutTerms, first: [...first, ...takeTurns(work, terms, chance)], work: undefined })
      : layOut({ ...layOutTerms, first, work: found });
  const advice = [
    ...(lines.length === 0
      ? [emptyAdvice({ work: work.map(({ rung }) => rung), easy: easy.map(({ rung }) => rung), demands })]
      : []),
    ...(minutes > DAY_MINUTES && lines.length > 0
      ? [say("plan.day-enough", { minutes: Math.round(minutes), planned: DAY_MINUTES })]
      : []),
    ...(lines.length > 0 ? [say("plan.short-rest", { takes: rest.after, seconds: rest.seconds })] : []),
    ...(lines.length > 0 ? (found?.advice ?? []) : []),
    ...neverClean(request, demands),
    ...leftOver(seconds, lines),
    ...(order === "taking turns" && lines.length > 0 ? [say("plan.taking-turns")] : []),
    ...(belief.takes === 0 ? [say("plan.nothing-heard")] : []),
  ];
  const outlook = outlookOf(request, { aim, today, rest, work: work.map(({ rung }) => rung.drill) });
  return success({
    version: 2,
    student: standing.student,
    curriculum: curriculum.name,
    edition: curriculum.edition,
    today: request.today,
    minutes,
    seconds: secondsOf(lines),
    lines,
    rest,
    played: layOutTerms.played,
    advice: advice.map(({ says }) => says),
    messages: advice.map(({ message }) => message),
    cautions: CAUTIONS,
    ...(outlook === undefined ? {} : { outlook }),
  });
}

/** How many takes there is time for, how many of them may be of one rung, and what was played today. */
function stepTerms(
  { curriculum, standing }: PlanRequest,
  {
    aim,
    history,
    today,
    seconds,
    rung,
  }: {
    readonly aim: Aim;
    readonly history: History;
    readonly today: Day;
    readonly seconds: number;
    readonly rung: Rung | undefined;
  },
): StepTerms {
  const played = history.takes.filter(({ day }) => day === today);
  const slot = rung === undefined ? seconds : slotSeconds(aim.demands.of(rung).seconds);
  const takes = Math.floor(seconds / slot);
  return {
    curriculum,
    standing,
    aim,
    today,
    takes,
    mostOf: (each) =>
      Math.min(MOST_ON_A_RUNG, Math.max(1, Math.floor((Math.floor(seconds / each) + played.length) / 2))),
    playedToday: (each) => {
      const text = settingsText(each.settings);
      return played.filter((take) => take.drill === each.drill.name && take.rung === text).length;
    },
  };
}

function outlookOf(
  { curriculum, standing, deadline, minutes, seed }: PlanRequest,
  {
    aim,
    today,
    rest,
    work,
  }: { readonly aim: Aim; readonly today: Day; readonly rest: ShortRest; readonly work: readonly Drill[] },
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
    practises: deadline.practises ?? "the plan",
    rest,
    aim,
    seed,
  });
}

/** For the teacher: rungs on which the student is and which no take could show clean. */
function neverClean({ curriculum, standing }: PlanRequest, demands: DemandCache): readonly Worded[] {
  return curriculum.drills.flatMap((drill) => {
    const held = drillStanding(standing, drill.name);
    const rung = rungCalled(drill, held?.rung);
    if (held?.state !== "open" || rung === undefined || canBeClean(demands.of(rung).demand)) return [];
    return [say("plan.never-clean", { drill: drill.name })];
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
