import { weigh } from "../progress/index.js";
import type { Verdict } from "../schema/index.js";
import type { Plan, PlanStep, PlayLine } from "./model.js";

/** What a plan says to play next. */
export interface NextTake {
  readonly line: PlayLine;
  readonly step: PlanStep;
  /** Whether a short rest comes first. */
  readonly rested: boolean;
}

/**
 * What to play next by a plan that is obeyed to the letter, after takes with these verdicts, in order; `undefined` when the plan is at its end.
 * Everything needed is in the plan.
 *
 * @example
 * nextTake(plan, [])?.step.rung // "tempo=72,variant=plain"
 */
export function nextTake(plan: Plan, verdicts: readonly Verdict[]): NextTake | undefined {
  const course = courseOf(plan);
  let next = course.next();
  for (const verdict of verdicts) {
    if (next === undefined) return undefined;
    course.heard(verdict);
    next = course.next();
  }
  return next;
}

/** The run of a line's steps: where it is, what was heard there, and how often each step was played. */
interface Run {
  at: number | undefined;
  readonly steps: readonly PlanStep[];
  readonly stays: string[];
  readonly counts: number[];
  readonly earned: boolean[];
}

function courseOf({ lines, rest, played }: Plan): { next(): NextTake | undefined; heard(verdict: Verdict): void } {
  let sinceRest = played;
  let index = 0;
  let [taken, used] = [0, 0];
  let run: Run | undefined;
  const turn = (): void => {
    index++;
    [taken, used] = [0, 0];
    const line = lines[index];
    if (line?.kind === "rest") sinceRest = 0;
    else if (line !== undefined && line.goesOn === undefined) run = undefined;
  };
  const cost = (step: PlanStep): number => step.seconds + (sinceRest >= rest.after ? rest.seconds : 0);
  const next = (): NextTake | undefined => {
    for (; index < lines.length; turn()) {
      const line = lines[index]!;
      if (line.kind === "rest") continue;
      run ??= runOf(line);
      const step = run.at === undefined ? undefined : run.steps[run.at];
      if (step === undefined || taken >= line.takes || used + cost(step) > line.seconds) continue;
      return { line, step, rested: sinceRest >= rest.after };
    }
    return undefined;
  };
  const heard = (verdict: Verdict): void => {
    const step = run!.steps[run!.at!]!;
    used += cost(step);
    sinceRest = sinceRest >= rest.after ? 1 : sinceRest + 1;
    taken++;
    move(run!, verdict);
  };
  return { next, heard };
}

function runOf({ steps }: PlayLine): Run {
  return {
    at: steps.length === 0 ? undefined : 0,
    steps,
    stays: steps.map(({ stay }) => stay),
    counts: steps.map(() => 0),
    earned: steps.map(({ earned }) => earned),
  };
}

/** Moves a run by the verdict of a take of its step. */
function move(run: Run, verdict: Verdict): void {
  const at = run.at!;
  const { gate, onward, back, most } = run.steps[at]!;
  const stay = run.stays[at]! + verdict[0]!;
  run.stays[at] = stay;
  run.counts[at]!++;
  const isOpen = verdict === "within" && gate !== undefined && (run.earned[at]! || weigh(gate, stay).met);
  const goesBack = back !== undefined && verdict === "beyond" && beyondInRow(stay) >= back.after;
  if (isOpen) {
    run.earned[at] = true;
    arrive(run, onward);
  } else if (goesBack) {
    // What was earned on the rungs gone back over has lapsed.
    for (let i = 0; i < run.steps.length; i++)
      if (run.steps[i]!.drill === run.steps[at]!.drill) lapse(run, i, back.to, at);
    arrive(run, back.to);
  } else if (run.counts[at]! >= most.takes) arrive(run, most.to);
}

/** Comes to a step; one that has had its takes leads on to the step after them. */
function arrive(run: Run, to: number | undefined): void {
  run.at = to;
  if (to === undefined) return;
  run.stays[to] = "";
  const { takes, to: after } = run.steps[to]!.most;
  if (run.counts[to]! >= takes) {
    run.at = after === undefined || run.counts[after]! >= run.steps[after]!.most.takes ? undefined : after;
    if (run.at !== undefined) run.stays[run.at] = "";
  }
}

function lapse(run: Run, i: number, from: number, to: number): void {
  // A preparation is below every rung.
  const [at, low, high] = [i, from, to].map((step) => run.steps[step]!.number ?? 0);
  if (at! >= low! && at! <= high!) run.earned[i] = false;
}

/** Takes in a row beyond the tolerance at the end of a stay, unclear ones apart. */
function beyondInRow(stay: string): number {
  const clear = stay.replaceAll("u", "");
  return clear.length - clear.replace(/b+$/, "").length;
}
