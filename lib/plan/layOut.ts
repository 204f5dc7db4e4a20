import type { Worded } from "../base/index.js";
import { PLAYING_MINUTES, REST_MINUTES, type ShortRest } from "./breaks.js";
import type { PlanLine, PlanStep, PlayLine } from "./model.js";
import type { NewWork } from "./newWork.js";
import { say } from "./say.js";

/** A line to be laid out: its steps, how many takes at most, and why. */
export interface Intention {
  readonly steps: readonly PlanStep[];
  readonly takes: number;
  /** Of a clean take of the first step, 0 to 1. */
  readonly chance: number;
  readonly because: Worded;
  readonly follows?: readonly Worded[];
}

export interface LayOutTerms {
  /** What comes before the new work: warm-up and reviews. */
  readonly first: readonly Intention[];
  readonly work: NewWork | undefined;
  readonly seconds: number;
  readonly rest: ShortRest;
  /** Takes since the last short rest. */
  readonly played: number;
}

/**
 * Lines of a session, one after the other, as long as they fit into `seconds`: what comes first, then new work until the time is up, with a rest
 * after every 25 minutes. Short rests are part of the lines. A line that no longer fits is passed over. Nothing to do: no lines.
 */
export function layOut({ first, work, seconds, rest, played }: LayOutTerms): readonly PlanLine[] {
  const lines: PlanLine[] = [];
  let [used, stretch, sinceRest] = [0, 0, played];
  const add = ({ steps, takes, ...said }: Intention, most: number): void => {
    const fit = fitting(steps, { most, takes, sinceRest, rest });
    if (fit.takes === 0) return;
    lines.push({ ...lineOf(steps[0]!, said), takes: fit.takes, from: used, seconds: fit.seconds, steps });
    used += fit.seconds;
    stretch += fit.seconds;
    sinceRest = fit.sinceRest;
  };
  for (const each of first) add(each, Math.min(seconds - used, 60 * PLAYING_MINUTES - stretch));
  if (work === undefined) return lines;
  const whole = { ...work, takes: Number.POSITIVE_INFINITY };
  for (let begun = false; ; begun = true) {
    const before = lines.length;
    const pause = lines.length > 0 && begun ? 60 * REST_MINUTES : 0;
    const room = Math.min(seconds - used - pause, 60 * PLAYING_MINUTES - (begun ? 0 : stretch));
    if (fitting(work.steps, { most: room, takes: 1, sinceRest: begun ? 0 : sinceRest, rest }).takes === 0) return lines;
    if (pause > 0) {
      const resting = say("plan.rest");
      lines.push({ kind: "rest", from: used, seconds: pause, because: resting.says, message: resting.message });
      used += pause;
      [stretch, sinceRest] = [0, 0];
    }
    add(whole, room);
    const last = lines.at(-1);
    if (begun && last !== undefined && last.kind !== "rest") lines[lines.length - 1] = goingOn(last);
    if (lines.length === before) return lines;
  }
}

function lineOf(
  { kind, drill, title, rung, number, mix }: PlanStep,
  { chance, because, follows = [] }: Omit<Intention, "steps" | "takes">,
): Omit<PlayLine, "takes" | "from" | "seconds" | "steps"> {
  return {
    kind,
    drill,
    title,
    rung,
    number,
    mix,
    chance,
    because: because.says,
    message: because.message,
    follows: follows.map(({ says }) => says),
    followMessages: follows.map(({ message }) => message),
  };
}

/** A line that goes on where the one before it stopped. */
function goingOn(line: PlayLine): PlayLine {
  const { says, message } = say("plan.go-on");
  return { ...line, because: says, message, follows: [], followMessages: [], steps: [], goesOn: true };
}

/** How many takes fit into so many seconds: as many as of the shortest step, in the time that is left where takes differ; none when the first does not fit. */
function fitting(
  steps: readonly PlanStep[],
  {
    most,
    takes,
    sinceRest,
    rest,
  }: { readonly most: number; readonly takes: number; readonly sinceRest: number; readonly rest: ShortRest },
): { readonly takes: number; readonly seconds: number; readonly sinceRest: number } {
  const first = steps[0]!.seconds;
  const shortest = Math.min(...steps.map(({ seconds }) => seconds));
  const count = (slot: number): { takes: number; seconds: number; sinceRest: number } => {
    let [n, used, since] = [0, 0, sinceRest];
    while (n < takes) {
      const cost = slot + (since >= rest.after ? rest.seconds : 0);
      if (used + cost > most) break;
      used += cost;
      since = since >= rest.after ? 1 : since + 1;
      n++;
    }
    return { takes: n, seconds: used, sinceRest: since };
  };
  const own = count(first);
  if (own.takes === 0 || shortest === first) return own;
  const faster = count(shortest);
  return { ...own, takes: faster.takes, seconds: takes === Number.POSITIVE_INFINITY ? Math.floor(most) : own.seconds };
}
