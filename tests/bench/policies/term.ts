import { random } from "../../../lib/base/index.js";
import type { Curriculum } from "../../../lib/curriculum/index.js";
import { type Rung, rungCalled, rungs, scoreOf, settingsText } from "../../../lib/drill/index.js";
import {
  type Belief,
  beliefOn,
  type DemandCache,
  demandCache,
  observationOf,
  priorBelief,
  updateBelief,
} from "../../../lib/plan/index.js";
import { beginJournal, decide, drillStanding } from "../../../lib/progress/index.js";
import type { Finding, JournalEvent, Standing, Verdict } from "../../../lib/schema/index.js";
import { dayOf } from "../../../lib/time/index.js";
import { type Asks, asksOf, type Law, learn, newStudent, playAs, type Student, trueChance, wake } from "./student.js";

/** One student's term under one policy. Take n of the term has the same luck under every policy. */
export interface Term {
  readonly course: Curriculum;
  readonly seed: string;
  readonly student: Student;
  readonly demands: DemandCache;
  readonly belief: Belief;
  readonly standing: Standing;
  readonly events: readonly JournalEvent[];
  readonly today: string;
  /** Seconds left of the session. */
  readonly left: number;
}

/** A policy: what is played next, asked before each take; `undefined` ends the session. It is begun anew for every session. */
export type Policy = (term: Term) => (last: Verdict | undefined) => Play | undefined;
export interface Play {
  readonly rung: Rung;
  /** Whether it is only listened to and played along with: practice that is not judged. */
  readonly isListening: boolean;
}

export interface Outcome {
  /** Rungs left behind at the end, of all drills. */
  readonly passed: number;
  readonly finished: boolean;
  /** Sessions until the course was finished; those of the term when it was not. */
  readonly sessions: number;
  /** Mean true chance at the end on the rungs left behind. */
  readonly kept: number;
  readonly takes: number;
  /** Takes whose true chance was below 20 %, and whose forecast was. */
  readonly hopeless: number;
  readonly forecastHopeless: number;
  /** Forecast and outcome of each take that the policy forecast. */
  readonly forecasts: readonly Forecasted[];
}
export interface Forecasted {
  readonly chance: number;
  readonly clean: boolean;
  /** Whether the take has silences. */
  readonly silent: boolean;
}

export interface TermTerms {
  readonly course: Curriculum;
  readonly law: Law;
  readonly seed: string;
  readonly sessions: number;
  readonly seconds: number;
  readonly near?: "perfect";
  /** Share of the sessions that are missed; none when left out. */
  readonly missed?: number;
  readonly rest: { readonly after: number; readonly seconds: number };
  /** Whether a belief is kept, which only plans need. */
  readonly believes: boolean;
  /** Forecast of a clean take, for the count of hopeless takes. */
  chanceOf(rung: Rung, term: Term): number;
}

const PAUSE = 20;
const asked = new Map<string, Asks>();
function asks(rung: Rung): Asks {
  const key = `${rung.drill.name} ${settingsText(rung.settings)}`;
  let found = asked.get(key);
  if (found === undefined) {
    found = asksOf(scoreOf(rung));
    asked.set(key, found);
  }
  return found;
}

const unmeasured = { unmeasured: "not simulated" };

/** A whole term: sessions on five days of the week. */
export function termUnder(policy: Policy, terms: TermTerms): Outcome {
  const { course, seed, law } = terms;
  const begun = beginJournal(course, "tern", "2026-03-01T08:00:00Z");
  const student = newStudent(`${seed}/student`, law, terms.near);
  const term = {
    course,
    seed,
    student,
    demands: demandCache(),
    belief: priorBelief(),
    standing: begun.standing,
    events: [...begun.events] as JournalEvent[],
    today: "",
    left: 0,
  };
  const counts = { takes: 0, hopeless: 0, forecastHopeless: 0 };
  const forecasts: Forecasted[] = [];
  let sessions = terms.sessions;
  let finished = false;
  for (let session = 0; session < terms.sessions && !finished; session++) {
    const day = session + 2 * Math.floor(session / 5);
    const at = new Date(Date.UTC(2026, 2, 2 + day, 17)).toISOString().slice(0, 19);
    if (random(`${seed}/missed ${session}`).uniform() < (terms.missed ?? 0)) continue;
    term.today = at.slice(0, 10);
    if (terms.believes) term.belief = beliefOn(term.belief, dayOf(term.today)!);
    term.left = terms.seconds;
    wake(student, session % 5 === 0 ? 3 : 1, `${seed}/day ${session}`);
    const next = policy(term);
    let last: Verdict | undefined;
    for (let n = 0; !finished; n++) {
      const play = next(last);
      if (play === undefined) break;
      const { rung, isListening } = play;
      const asking = asks(rung);
      term.left -= Math.ceil(asking.seconds + PAUSE) + (n > 0 && n % terms.rest.after === 0 ? terms.rest.seconds : 0);
      if (term.left < 0) break;
      const name = `${session}-${n}`;
      const shown = playAs(student, asking, random(`${seed}/take ${counts.takes}`));
      const clean = trueChance(student, asking, { seed: `${seed}/true ${counts.takes}` });
      counts.takes++;
      if (clean < 0.2 && !isListening) counts.hopeless++;
      if (terms.believes && !isListening) {
        const chance = terms.chanceOf(rung, term);
        if (chance < 0.2) counts.forecastHopeless++;
        forecasts.push({ chance, clean: shown.verdict === "within", silent: asking.silences.length > 0 });
        term.belief = updateBelief(term.belief, observationOf(term.demands.of(rung).demand, shown));
      }
      learn(student, asking, { rung: `${rung.drill.name} ${settingsText(rung.settings)}`, clean });
      last = shown.verdict;
      if (isListening) continue;
      const minute = String(n).padStart(2, "0");
      const decision = decide(course, term.standing, findingOf(name, rung, shown), `${at.slice(0, 14)}${minute}:00Z`);
      term.standing = decision.standing;
      term.events.push(...decision.events);
      finished = course.drills.every(({ name: drill }) => drillStanding(term.standing, drill)?.completed !== undefined);
    }
    if (finished) sessions = session + 1;
  }
  const left = course.drills.flatMap((drill) => {
    const held = drillStanding(term.standing, drill.name);
    const all = rungs(drill);
    const own = held?.state === "complete" ? all.count : (rungCalled(drill, held?.rung)?.index ?? 0);
    return Array.from({ length: own }, (_, i) => all.at(i));
  });
  const chances = left.map((rung, i) => trueChance(student, asks(rung), { seed: `${seed}/end ${i}`, takes: 20 }));
  const kept = chances.length === 0 ? 0 : chances.reduce((sum, each) => sum + each, 0) / chances.length;
  return { passed: left.length, finished, sessions, kept, forecasts, ...counts };
}

function findingOf(take: string, rung: Rung, { verdict }: { readonly verdict: Finding["verdict"] }): Finding {
  return {
    version: 1,
    take,
    drill: rung.drill.name,
    rung: settingsText(rung.settings),
    mix: "play",
    verdict,
    probability: unmeasured,
    reasons: [],
    pairs: [],
    missed: [],
    added: [],
    offsetMs: 0,
    dropouts: [],
    openBars: [],
    steadiness: {
      accompaniedMs: 20,
      aloneMs: unmeasured,
      clockMs: unmeasured,
      motorMs: unmeasured,
      verdict,
      probability: unmeasured,
    },
    sentence: "",
  };
}
