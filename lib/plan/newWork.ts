import type { Phrase, Worded } from "../base/index.js";
import { type Drill, preparationsOf, type Rung, rungs, settingsText } from "../drill/index.js";
import type { Played } from "../forecast/index.js";
import { followsSaid } from "./followsSaid.js";
import { HARD } from "./limits.js";
import type { PlanStep } from "./model.js";
import { say } from "./say.js";
import { climbSteps, rampSteps, type StepTerms, stepOf } from "./steps.js";
import { type Aim, chanceAt, type WorkEstimate } from "./workEstimate.js";

/** The new work of a session: what it is, its decision graph, why, and what it leads to. */
export interface NewWork {
  readonly steps: readonly PlanStep[];
  /** Of a clean take of the rung in work, 0 to 1. */
  readonly chance: number;
  readonly because: Worded;
  readonly follows: readonly Worded[];
  /** For the teacher. */
  readonly advice: readonly Worded[];
}

/** Takes and days between two tries of a rung that is too hard, so that at most about 5 in 100 are such: listening is in no journal. */
const BETWEEN_TRIES = 20;
const DAYS_BETWEEN_TRIES = 2;
/** By how much the chance on an easier rung must be higher. Our choice. */
const EASIER_BY = 0.05;
/** Rungs below the student's own that are looked at for an easier one. Our choice. */
const LOOKED_BELOW = 8;
/** Rungs of a ramp at most. Our choice. */
const RAMP_LENGTH = 3;
/** By how much a chance may differ from the aim and still be about right. Our choice. */
const NEAR = 0.1;

type Taken = Pick<Played, "drill" | "rung" | "verdict" | "day">;

/** New work from the drill nearest the aim on; `undefined` when there is none. The student's takes so far say when a rung out of reach is tried again. */
export function planNewWork(
  work: readonly WorkEstimate[],
  terms: StepTerms,
  taken: readonly Taken[],
): NewWork | undefined {
  const first = work[0];
  if (first === undefined) return undefined;
  if (first.chance < HARD) return outOfReach(first, terms, mayTry(first.rung, terms, taken));
  const second = work.slice(1).find(({ chance }) => chance >= HARD);
  const base = 0;
  const length = climbSteps(first, terms, { base }).length;
  const other = second === undefined ? fallback(first, terms) : climbSteps(second, terms, { base: length });
  const stuck = other.length > 0 ? length : undefined;
  const climb = climbSteps(first, terms, { base, ...(stuck === undefined ? {} : { stuck }) });
  const steps = begunAnew([...climb, ...other]);
  return { steps, chance: first.chance, because: whyNew(first, terms.aim), follows: followsSaid(steps), advice: [] };
}

/** A step that has had its takes today cannot be the first: the one after it comes first then. */
function begunAnew(steps: readonly PlanStep[]): readonly PlanStep[] {
  const { most } = steps[0]!;
  if (most.takes > 0 || most.to === undefined) return steps;
  // Indices stay as they are: the first step is the one that follows, and leads where it leads.
  return [{ ...steps[most.to]! }, ...steps.slice(1)];
}

/** What is played once a rung has had enough takes: an easier rung or a preparation, the one nearest the aim. */
function fallback(work: WorkEstimate, terms: StepTerms): readonly PlanStep[] {
  const found = rampOf(work, terms);
  return found.length === 0 ? [] : [found[nearestAim(found, terms)]!.step];
}

/** An easier rung or a preparation. */
interface Easier {
  readonly step: PlanStep;
  readonly chance: number;
}

function nearestAim(found: readonly Easier[], { aim }: StepTerms): number {
  const off = ({ chance }: Easier): number => Math.abs(chance - aim.target);
  return found.reduce((best, each, i) => (off(each) < off(found[best]!) ? i : best), 0);
}

/** Easier rungs within reach, or preparations where there are none; the easiest first. */
function rampOf({ rung, chance }: WorkEstimate, terms: StepTerms): readonly Easier[] {
  const { drill, index } = rung;
  const below = Array.from({ length: Math.min(index, LOOKED_BELOW) }, (_, i) => rungs(drill).at(index - 1 - i));
  const easier = (found: readonly Rung[], kind: PlanStep["kind"]): readonly Easier[] =>
    found
      .map((each) => ({ step: stepOf(each, kind, terms), chance: chanceAt(each, terms.aim) }))
      .filter((each) => each.chance >= Math.max(HARD, chance + EASIER_BY) && each.step.most.takes > 0);
  const rungsBelow = easier(below, "build-up");
  const found = rungsBelow.length > 0 ? rungsBelow : easier(preparationsOf(drill), "preparation");
  return found.toSorted((a, b) => b.chance - a.chance);
}

/** Work on a drill whose rung is out of reach: a ramp of what is not, and a try of the rung now and then; listening where nothing is within reach. */
function outOfReach(work: WorkEstimate, terms: StepTerms, tries: boolean): NewWork {
  const { rung, chance } = work;
  const found = thinned(rampOf(work, terms));
  const ramp = found.map(({ step }) => step);
  const head = tries ? 1 : 0;
  const tail = ramp.length > 0 ? ramp.length : 2;
  const climb = climbSteps(work, terms, { base: head + tail, stuck: head });
  const prepared =
    ramp.length > 0
      ? rampSteps(ramp, { start: nearestAim(found, terms), base: head, ...(tries ? {} : { top: head + tail }) })
      : listening(rung, { terms, base: head });
  const once: PlanStep = {
    ...climb[0]!,
    gate: { kind: "in a row", count: 1 },
    stay: "",
    earned: false,
    onward: head + tail,
    most: { takes: 1, to: head },
  };
  const { back: _, ...probe } = once;
  const steps = [...(tries ? [probe] : []), ...prepared, ...climb];
  const said = { often: often(chance) };
  const because = ramp.length > 0 ? say("plan.prepare", said) : say("plan.listen", said);
  const advice = rung.index === 0 ? [say("plan.out-of-reach", { ...said, drill: rung.drill.name })] : [];
  return { steps, chance, because, follows: followsSaid(steps), advice };
}

/** The easiest, the hardest and one between. */
function thinned(ramp: readonly Easier[]): readonly Easier[] {
  if (ramp.length <= RAMP_LENGTH) return ramp;
  return [ramp[0]!, ramp[Math.floor((ramp.length - 1) / 2)]!, ramp.at(-1)!];
}

/** The listening version of the easiest there is and then of the rung, played along with and not judged: in the mix in which the student's part sounds, where there is one. */
function listening(
  rung: Rung,
  { terms, base }: { readonly terms: StepTerms; readonly base: number },
): readonly PlanStep[] {
  const slower = preparationsOf(rung.drill)[0] ?? rung;
  const heard = (each: Rung): PlanStep => {
    const step = stepOf(each, "preparation", terms);
    return { ...step, mix: listeningMix(rung.drill) ?? step.mix };
  };
  const first = heard(slower);
  return [{ ...first, most: { ...first.most, to: base + 1 } }, heard(rung)];
}

/** The mix of a drill in which the student's part is heard; `undefined` without one. */
function listeningMix({ mixes, student }: Drill): string | undefined {
  return mixes.find(({ parts }) => parts[student] === "plays")?.name;
}

/** Whether a rung out of reach is tried: when it was not played in the latest takes or days, or its take today was clean. */
function mayTry({ drill, settings }: Rung, { today }: StepTerms, taken: readonly Taken[]): boolean {
  const text = settingsText(settings);
  const place = taken.findLastIndex((each) => each.drill === drill.name && each.rung === text);
  const last = taken[place];
  if (last === undefined || taken.length - place > BETWEEN_TRIES || today - last.day >= DAYS_BETWEEN_TRIES) return true;
  return last.day === today && last.verdict === "within";
}

export function whyNew({ chance, cleanNeeded }: WorkEstimate, { target }: Aim): Worded {
  const reach = chance > target + NEAR ? "easy" : chance < target - NEAR ? "hard" : "right";
  return say("plan.your-rung", { reach, often: often(chance), needed: cleanNeeded });
}

/** A chance of a clean take in takes: "9 takes in 10", "1 take in 100". */
function often(share: number): Phrase {
  const inTen = Math.round(10 * share);
  const [count, of] = inTen > 0 && inTen < 10 ? [inTen, 10] : [Math.min(99, Math.max(1, Math.round(100 * share))), 100];
  return say("plan.often", { count: count!, of: of! }).message;
}
