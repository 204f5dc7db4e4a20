/** What comes of plans over a term, against policies without one, for students of several laws of learning. */
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { random } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { preparationCalled, type Rung, rungCalled, rungs } from "../../lib/drill/index.js";
import { forecast, type NextTake, nextTake, type Plan, planSession } from "../../lib/plan/index.js";
import { drillStanding } from "../../lib/progress/index.js";
import type { Verdict } from "../../lib/schema/index.js";
import { reliability } from "./calibration.js";
import { LAWS, type Law } from "./policies/student.js";
import { type Outcome, type Play, type Policy, type Term, termUnder } from "./policies/term.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
/** Students of each law. */
const STUDENTS = Number(process.env.LEEWAY_STUDENTS ?? 12);
/** Seconds after which no further student is begun, for a look on a busy machine. */
const SECONDS = Number(process.env.LEEWAY_SECONDS ?? Number.POSITIVE_INFINITY);
/** A file that keeps what came of each student, a line each, so that a long run goes on where it was broken off, or is one of several beside each other; none when left out. */
const KEPT = process.env.LEEWAY_KEPT;
/** The first student of each law to be played; those before are taken from the file. */
const FROM = Number(process.env.LEEWAY_FROM ?? 0);
/** Short enough that not everybody finishes: where all do, no policy can be better than another. */
const SESSIONS = Number(process.env.LEEWAY_SESSIONS ?? 18);
const MINUTES = 20;
const FILE = "quayside-first-course.yaml";
/** Rests of every policy alike: those of a plan for a trumpet. */
const REST = { after: 3, seconds: 45 };
const ONLY = process.env.LEEWAY_ONLY?.split(",");

const text = readFileSync(new URL(`../../curricula/${FILE}`, import.meta.url), "utf8");
const read = readCurriculum(text, { file: FILE, readFile: () => undefined });
if (!read.ok) throw new Error(FILE);
const course = read.value;

function planOf({ standing, events, today, belief, seed, left }: Term): Plan | undefined {
  if (left <= 0) return undefined;
  const request = {
    curriculum: course,
    standing,
    events,
    today,
    belief,
    seed,
    minutes: left / 60,
    instrument: "trumpet",
  };
  const planned = planSession(request);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problems));
  return planned.value;
}

/** The take of a plan's step; a preparation without a gate is listened to and played along with. */
function playOf(next: NextTake | undefined): Play | undefined {
  if (next === undefined) return undefined;
  const drill = course.drills.find(({ name }) => name === next.step.drill)!;
  const rung = rungCalled(drill, next.step.rung) ?? preparationCalled(drill, next.step.rung)!;
  return { rung, isListening: next.step.kind === "preparation" && next.step.gate === undefined };
}

/** Rungs on which the student is in the drills that are open, in the order of the course. */
const openRungs = ({ standing }: Term): readonly Rung[] =>
  course.drills.flatMap((drill) => {
    const held = drillStanding(standing, drill.name);
    return held?.state === "open" ? [rungCalled(drill, held.rung)!] : [];
  });

const played = (rung: Rung | undefined): Play | undefined => rung && { rung, isListening: false };

const POLICIES: Readonly<Record<string, Policy>> = {
  "the plan, obeyed to the letter": (term) => {
    const plan = planOf(term);
    const verdicts: Verdict[] = [];
    return (last) => {
      if (last !== undefined) verdicts.push(last);
      return plan === undefined ? undefined : playOf(nextTake(plan, verdicts));
    };
  },
  "the plan, asked anew after each take": (term) => () => {
    const plan = planOf(term);
    return plan === undefined ? undefined : playOf(nextTake(plan, []));
  },
  "always the current rung": (term) => () => played(openRungs(term)[0]),
  "a random open rung": (term) => {
    const chance = random(`${term.seed}/${term.today}`);
    return () => {
      const open = openRungs(term);
      const own = open[chance.below(Math.max(1, open.length))];
      return own && played(rungs(own.drill).at(chance.below(own.index + 1)));
    };
  },
  "cheat at hopeless takes: the first rung of all": () => () => played(rungs(course.drills[0]!).at(0)),
  "cheat at retention: each rung passed twelve times more": (term) => () => {
    const own = openRungs(term)[0];
    const takes = term.events.filter(({ kind }) => kind === "take assessed").length;
    if (own === undefined || takes % 15 < 3) return played(own);
    return played(rungs(own.drill).at(Math.max(0, own.index - 1)));
  },
};

const laws = Object.keys(LAWS) as Law[];
const terms = { course, sessions: SESSIONS, seconds: 60 * MINUTES, rest: REST };
/** Chance of a clean take by the forecast, of takes that can be judged. */
const chanceOf = (rung: Rung, { belief, demands }: Term): number => forecast(belief, demands.of(rung).demand).clean;

console.log(
  `seed ${SEED}; ${STUDENTS} students of each of ${laws.length} laws; terms of ${SESSIONS} sessions of ${MINUTES} minutes, five days a week, a tenth of them missed; ${FILE}; every second student finds the course hard;`,
);
console.log(
  `a rest of ${REST.seconds} s after ${REST.after} takes, under every policy; take n of a term has the same luck under every policy`,
);
for (const law of laws) console.log(`  ${law}: ${LAWS[law]}`);

const all = new Map<string, Map<string, Outcome>>();
for (const name of Object.keys(POLICIES)) all.set(name, new Map());
for (const line of KEPT !== undefined && existsSync(KEPT) ? readFileSync(KEPT, "utf8").trim().split("\n") : []) {
  const { seed, student, outcomes } = JSON.parse(line);
  if (seed === SEED) for (const [name, outcome] of outcomes) all.get(name)!.set(student, outcome);
}
const until = Date.now() + 1000 * SECONDS;
students: for (let i = FROM; i < STUDENTS; i++)
  for (const law of laws) {
    if (ONLY !== undefined && !ONLY.includes(law)) continue;
    if (Date.now() > until) break students;
    const seed = `${SEED}/${law} ${i}`;
    const student = `${law} ${i}`;
    if (all.get("always the current rung")!.has(student)) continue;
    const outcomes = Object.entries(POLICIES).map(([name, policy]): [string, Outcome] => {
      const believes = name.startsWith("the plan");
      // Every second student finds the course hard.
      const near = i % 2 === 0 ? {} : { near: "hard" as const };
      return [name, termUnder(policy, { ...terms, ...near, law, seed, believes, chanceOf, missed: 0.1 })];
    });
    for (const [name, outcome] of outcomes) all.get(name)!.set(student, outcome);
    if (KEPT !== undefined) appendFileSync(KEPT, `${JSON.stringify({ seed: SEED, student, outcomes })}\n`);
  }
console.log(`${all.get("always the current rung")!.size} students in all`);
const base = all.get("always the current rung")!;
const mean = (values: readonly number[]): number =>
  values.reduce((sum, each) => sum + each, 0) / Math.max(1, values.length);

/** Mean of differences with its 95 % interval (normal), by student. */
function interval(values: readonly number[]): string {
  const middle = mean(values);
  const error = Math.sqrt(mean(values.map((each) => (each - middle) ** 2)) / Math.max(1, values.length - 1));
  const shown = [middle, middle - 1.96 * error, middle + 1.96 * error].map((each) => each.toFixed(1));
  return `${shown[0]} (${shown[1]} to ${shown[2]})`;
}

console.log(
  "\n| law | policy | finished | rungs passed | rungs against the current rung (95 %) | true chance on rungs passed | takes truly below 20 % | takes forecast below 20 % |",
);
console.log("|---|---|---|---|---|---|---|---|");
for (const law of ["all", ...laws])
  for (const [name, outcomes] of all) {
    const chosen = [...outcomes].filter(([key]) => law === "all" || key.startsWith(`${law} `));
    if (chosen.length === 0) continue;
    const list = chosen.map(([, each]) => each);
    const takes = list.reduce((sum, each) => sum + each.takes, 0);
    const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
    const cells = [
      law,
      name,
      percent(mean(list.map(({ finished }) => Number(finished)))),
      mean(list.map(({ passed }) => passed)).toFixed(1),
      name === "always the current rung"
        ? "-"
        : interval(chosen.map(([key, { passed }]) => passed - base.get(key)!.passed)),
      percent(mean(list.map(({ kept }) => kept))),
      percent(list.reduce((sum, { hopeless }) => sum + hopeless, 0) / takes),
      name.startsWith("the plan") ? percent(list.reduce((sum, each) => sum + each.forecastHopeless, 0) / takes) : "-",
    ];
    console.log(`| ${cells.join(" | ")} |`);
  }

console.log("\n| a near-perfect player | sessions to finish, mean of 6 | rungs |\n|---|---|---|");
for (const [name, policy] of ONLY === undefined ? Object.entries(POLICIES) : []) {
  const list = Array.from({ length: 6 }, (_, i) =>
    termUnder(policy, {
      ...terms,
      law: "equal",
      near: "perfect",
      seed: `${SEED}/near ${i}`,
      believes: name.startsWith("the plan"),
      chanceOf,
    }),
  );
  console.log(
    `| ${name} | ${mean(list.map(({ sessions }) => sessions)).toFixed(1)} | ${mean(list.map(({ passed }) => passed)).toFixed(1)} |`,
  );
}

console.log(
  "\n| forecast, of all takes of the plan asked anew | n | forecast | clean | off by |\n|---|---|---|---|---|",
);
for (const row of reliability(
  [...all.get("the plan, asked anew after each take")!.values()].flatMap(({ forecasts }) => forecasts),
))
  console.log(
    `| ${Math.round(100 * row.from)}-${Math.round(100 * row.to)} % | ${row.count} | ${(100 * row.forecast).toFixed(1)} | ${(100 * row.clean).toFixed(1)} | ${(100 * (row.clean - row.forecast)).toFixed(1)} |`,
  );
