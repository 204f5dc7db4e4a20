import type { Curriculum } from "../curriculum/index.js";
import { type Drill, isPreparation, type Rung, rungNumber, rungs, settingsText } from "../drill/index.js";
import { drillStanding, isCompleted, rungStanding, weigh } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import type { Day } from "../time/index.js";
import { slotSeconds } from "./breaks.js";
import type { PlanStep } from "./model.js";
import type { Aim, WorkEstimate } from "./workEstimate.js";

/** What steps are made from. */
export interface StepTerms {
  readonly curriculum: Curriculum;
  readonly standing: Standing;
  readonly aim: Aim;
  readonly today: Day;
  /** Takes there is time for, at most. */
  readonly takes: number;
  /** Takes of one rung at most, of so many seconds each, those of the day before this plan included. */
  mostOf(slot: number): number;
  /** Takes of a rung played today. */
  playedToday(rung: Rung): number;
}

/** Rungs ahead that a line names at most. Our choice: nobody passes more in a session, and a plan stays small. */
const MOST_AHEAD = 24;
/** Clean takes in a row that lead from an easier rung or a preparation to a harder one, and takes beyond that lead back. Our choice, as gates of courses have it. */
const RAMP = { clean: 3, beyond: 3 };

/** A step of a rung that leads nowhere yet. */
export function stepOf(rung: Rung, kind: PlanStep["kind"], { aim, mostOf, playedToday }: StepTerms): PlanStep {
  const { seconds, mix } = aim.demands.of(rung);
  const slot = slotSeconds(seconds);
  const { drill } = rung;
  return {
    kind,
    drill: drill.name,
    title: drill.title ?? drill.name,
    rung: settingsText(rung.settings),
    number: isPreparation(rung) ? null : rungNumber(rung),
    mix,
    seconds: slot,
    stay: "",
    earned: false,
    most: { takes: Math.max(0, mostOf(slot) - playedToday(rung)) },
  };
}

/**
 * Steps of a climb from a student's rung: on when the gate opens, through the drills that open then, and back as the drill says; the student's rung
 * first. `base` is the index the first step will have, `stuck` the step for who has had enough takes of a rung.
 */
export function climbSteps(
  { rung }: Pick<WorkEstimate, "rung">,
  terms: StepTerms,
  { base, stuck }: { readonly base: number; readonly stuck?: number },
): readonly PlanStep[] {
  const path = pathFrom(rung, terms);
  const below = belowOf(rung, terms);
  const all = [...path, ...below];
  const indexOf = (drill: Drill, index: number): number | undefined => {
    const place = all.findIndex((each) => each.drill === drill && each.index === index);
    return place < 0 ? undefined : base + place;
  };
  return all.map((each, i) => {
    const { drill } = each;
    const held = drillStanding(terms.standing, drill.name);
    const shown = held === undefined ? undefined : rungStanding(held, settingsText(each.settings));
    const onward =
      i < path.length
        ? i + 1 < path.length
          ? base + i + 1
          : undefined
        : each.index + 1 === rung.index
          ? base
          : base + i - 1;
    const target = drill.goBack === undefined ? undefined : indexOf(drill, Math.max(0, each.index - drill.goBack.by));
    const step = stepOf(each, "new work", terms);
    return {
      ...step,
      gate: drill.gate,
      stay: i === 0 ? (shown?.outcomes.slice(shown.from) ?? "") : "",
      earned: shown?.credit !== undefined,
      ...(onward === undefined ? {} : { onward }),
      ...(target === undefined || each.index === 0 ? {} : { back: { after: drill.goBack!.after, to: target } }),
      most: { ...step.most, ...(stuck === undefined ? {} : { to: stuck }) },
    };
  });
}

/** The rungs from this one on that may be reached, with those of the drills that open on the way. */
function pathFrom(rung: Rung, { curriculum, standing, takes }: StepTerms): readonly Rung[] {
  const path: Rung[] = [];
  const done = new Set(curriculum.drills.filter(({ name }) => isCompleted(standing, name)).map(({ name }) => name));
  let left = takes;
  let [drill, index]: [Drill | undefined, number] = [rung.drill, rung.index];
  while (drill !== undefined) {
    const all = rungs(drill);
    const fewest = fewestTakes(drill);
    for (; index < all.count && (path.length === 0 || left > 0) && path.length < MOST_AHEAD; index++) {
      path.push(all.at(index));
      left -= path.length === 1 ? 1 : fewest;
    }
    if (index < all.count) return path;
    done.add(drill.name);
    const before: Drill = drill;
    drill = curriculum.drills.find(
      ({ name, needs }) => !done.has(name) && needs.includes(before.name) && needs.every((need) => done.has(need)),
    );
    index = 0;
  }
  return path;
}

/** The rungs below this one that going back may lead to, the nearest first. */
function belowOf({ drill, index }: Rung, { takes }: StepTerms): readonly Rung[] {
  if (drill.goBack === undefined) return [];
  const falls = Math.floor(takes / drill.goBack.after) * drill.goBack.by;
  const count = Math.min(index, falls, MOST_AHEAD);
  return Array.from({ length: count }, (_, i) => rungs(drill).at(index - 1 - i));
}

/** Takes that open a gate at the least. */
function fewestTakes({ gate }: Drill): number {
  let takes = 1;
  while (takes < MOST_AHEAD && !weigh(gate, "w".repeat(takes)).met) takes++;
  return takes;
}

/**
 * Steps of a ramp: easier rungs or preparations in order, the easiest first; the one at `start` comes first in the steps. Three clean ones lead
 * to the next harder, from the hardest to `top`; three beyond lead to the next easier.
 */
export function rampSteps(
  ramp: readonly PlanStep[],
  { start, base, top }: { readonly start: number; readonly base: number; readonly top?: number },
): readonly PlanStep[] {
  const place = (i: number): number => base + ((i - start + ramp.length) % ramp.length);
  const steps = ramp.map((step, i): PlanStep => {
    const onward = i + 1 < ramp.length ? place(i + 1) : top;
    const other = i > 0 ? place(i - 1) : onward;
    return {
      ...step,
      gate: { kind: "in a row", count: RAMP.clean },
      ...(onward === undefined ? {} : { onward }),
      ...(i > 0 ? { back: { after: RAMP.beyond, to: place(i - 1) } } : {}),
      most: { ...step.most, ...(other === undefined ? {} : { to: other }) },
    };
  });
  return [...steps.slice(start), ...steps.slice(0, start)];
}
