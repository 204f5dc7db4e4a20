import type { Curriculum } from "../curriculum/index.js";
import { type Drill, parseSettings, type Rung, rungs, type Settings, scoreOf } from "../drill/index.js";
import { compareEvents } from "../progress/index.js";
import type { JournalEvent, TakeAssessed } from "../schema/index.js";
import { type Day, dayOfTime } from "../time/index.js";
import { type Belief, believe, learn } from "./belief.js";
import { type Demand, demandOf } from "./demand.js";
import { evidenceOf } from "./likelihood.js";
import type { Population } from "./traits.js";

/** What a plan needs of a journal. */
export interface History {
  /** The takes assessed, each once, in the order of the journal. */
  readonly takes: readonly Played[];
  /** Drills a teacher, or a placement test, has put the student on. */
  readonly placed: ReadonlySet<string>;
}
export interface Played extends Pick<TakeAssessed, "take" | "drill" | "rung" | "verdict" | "measured"> {
  readonly day: Day;
}

/** The history in a journal's events, whatever order they come in; no events, no history. */
export function historyOf(events: Iterable<JournalEvent>): History {
  const takes = new Map<string, Played>();
  const placed = new Set<string>();
  for (const event of [...events].sort(compareEvents)) {
    if (event.kind === "set by teacher") placed.add(event.drill);
    if (event.kind !== "take assessed" || takes.has(event.take)) continue;
    const { take, drill, rung, verdict, measured } = event;
    const day = dayOfTime(event.at);
    takes.set(take, { take, drill, rung, verdict, day, ...(measured === undefined ? {} : { measured }) });
  }
  return { takes: [...takes.values()], placed };
}

/** Latest takes a belief rests on: our choice; by then practice has changed the player, and the population no longer matters. */
const LATEST = 300;

/** What the takes of a student lead one to believe, the latest 300 of them; those of rungs the edition does not have are passed over. */
export function believeHistory(
  curriculum: Curriculum,
  { takes }: Pick<History, "takes">,
  { population, demands = demandsIn() }: { readonly population?: Population; readonly demands?: Demands } = {},
): Belief {
  let belief = believe(population);
  for (const played of takes.slice(-LATEST)) {
    const rung = rungCalled(drillCalled(curriculum, played.drill), played.rung);
    if (rung !== undefined) belief = learn(belief, evidenceOf(demands.of(rung).demand, played));
  }
  return belief;
}

/** The drill that has a name, or had it in an earlier edition. */
export function drillCalled(curriculum: Curriculum, name: string): Drill | undefined {
  const now = Object.hasOwn(curriculum.formerly, name) ? curriculum.formerly[name] : undefined;
  return (
    curriculum.drills.find((drill) => drill.name === name) ?? curriculum.drills.find((drill) => drill.name === now)
  );
}

/** The rung of a drill with these settings. */
export function rungCalled(drill: Drill | undefined, text: string | undefined): Rung | undefined {
  if (drill === undefined || text === undefined) return undefined;
  const settings = parseSettings(text);
  if (!settings.ok) return undefined;
  const all = rungs(drill);
  const index = all.indexOf(settings.value as Settings);
  return index === undefined ? undefined : all.at(index);
}

/** What rungs ask, worked out once each. */
export interface Demands {
  of(rung: Rung): { readonly demand: Demand; readonly seconds: number; readonly mix: string };
}

/** Rungs kept at most: our choice; a plan looks at some dozens, a deadline at some hundreds. */
const KEPT = 2000;

export function demandsIn(): Demands {
  const known = new Map<string, ReturnType<Demands["of"]>>();
  return {
    of(rung) {
      const key = `${rung.drill.name}\n${rung.index}`;
      let found = known.get(key);
      if (found === undefined) {
        const score = scoreOf(rung);
        found = { demand: demandOf(score), seconds: score.countIn + score.duration, mix: score.mix };
        if (known.size >= KEPT) known.clear();
        known.set(key, found);
      }
      return found;
    },
  };
}
