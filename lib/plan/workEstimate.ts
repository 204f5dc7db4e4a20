import type { Random } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { type Drill, type Rung, rungs, settingsText } from "../drill/index.js";
import type { Belief } from "../forecast/index.js";
import { type DemandCache, forecast, type History, rungCalled } from "../forecast/index.js";
import { drillStanding, isCompleted, rungStanding, weigh } from "../progress/index.js";
import type { DrillStanding, Standing } from "../schema/index.js";
import { firstTooHard } from "./climb.js";

/** A drill being worked on. */
export interface Work {
  readonly rung: Rung;
  readonly chance: number;
  /** Clean takes in a row that would open the gate now. */
  readonly wanting: number;
  /** An easier rung to begin with, when the rung itself is far from the aim. */
  readonly easier?: { readonly rung: Rung; readonly chance: number };
}

export interface Aim {
  readonly belief: Belief;
  readonly demands: DemandCache;
  /** Chance of a clean take that is aimed at. */
  readonly target: number;
}

/** So far below the aim a rung is begun with an easier one: our choice; at an aim of 85 % that is below 60 %. */
const FAR_BELOW = 0.25;
/** An easier rung must be easier by so much to be worth beginning with: our choice. */
const EASIER_BY = 0.1;
/** Clean takes looked ahead for an open gate; no gate the schema allows to be met wants more in practice (our choice). */
const MOST_WANTED = 60;

/** Whether a student may play a drill: it is there, it was opened, and all it needs is complete, or the student was put there. */
export function mayPlay(drill: Drill, standing: Standing, placed: ReadonlySet<string>): boolean {
  const held = drillStanding(standing, drill.name);
  if (held === undefined || held.state === "closed" || held.withdrawn === true) return false;
  const isPlaced = placed.has(drill.name) || held.by === "set by teacher" || held.by === "placement test";
  return isPlaced || drill.needs.every((need) => isCompleted(standing, need));
}

/** The drills in work, the one nearest the aim first; ties are broken by chance. */
export function workIn(
  curriculum: Curriculum,
  standing: Standing,
  { history, aim, chance }: { readonly history: History; readonly aim: Aim; readonly chance: Random },
): readonly Work[] {
  const found = curriculum.drills.flatMap((drill) => {
    const held = drillStanding(standing, drill.name);
    const rung = rungCalled(drill, held?.rung);
    if (held?.state !== "open" || rung === undefined || !mayPlay(drill, standing, history.placed)) return [];
    return [{ work: workOn(rung, held, aim), lot: chance.uniform() }];
  });
  const off = ({ chance: p }: Work): number => Math.round(1000 * Math.abs(p - aim.target));
  return found.sort((a, b) => off(a.work) - off(b.work) || a.lot - b.lot).map(({ work }) => work);
}

function workOn(rung: Rung, held: DrillStanding, aim: Aim): Work {
  const chance = chanceAt(rung, aim);
  const work = { rung, chance, wanting: wantingOn(rung, held) };
  if (chance >= aim.target - FAR_BELOW || rung.index === 0) return work;
  const easier = hardestBelow(rung, aim);
  const easily = chanceAt(easier, aim);
  return easily < chance + EASIER_BY ? work : { ...work, easier: { rung: easier, chance: easily } };
}

export function chanceAt(rung: Rung, { belief, demands }: Aim): number {
  return forecast(belief, demands.of(rung).demand).clean;
}

/** The last rung before the first that falls short of the aim, and below the one given. */
function hardestBelow(rung: Rung, aim: Aim): Rung {
  const first = firstTooHard(rung.drill, (each) => chanceAt(each, aim) < aim.target);
  const index = Math.min(rung.index - 1, (first?.index ?? rung.index) - 1);
  return rungs(rung.drill).at(Math.max(0, index));
}

/** Clean takes in a row that would open the gate of a rung: one where it was open before. */
function wantingOn({ drill, settings }: Rung, held: DrillStanding): number {
  const shown = rungStanding(held, settingsText(settings));
  if (shown?.credit !== undefined) return 1;
  const outcomes = shown?.outcomes.slice(shown.from) ?? "";
  for (let more = 1; more < MOST_WANTED; more++) if (weigh(drill.gate, outcomes + "w".repeat(more)).met) return more;
  return MOST_WANTED;
}

/** What was begun and is well within reach: the easiest of all rungs played or passed, the likeliest to be clean first. */
export function easyRungs(
  curriculum: Curriculum,
  standing: Standing,
  { history, aim }: { readonly history: History; readonly aim: Aim },
): readonly { readonly rung: Rung; readonly chance: number }[] {
  return curriculum.drills
    .filter((drill) => mayPlay(drill, standing, history.placed))
    .map((drill) => {
      const rung = rungs(drill).at(0);
      return { rung, chance: chanceAt(rung, aim) };
    })
    .sort((a, b) => b.chance - a.chance);
}
