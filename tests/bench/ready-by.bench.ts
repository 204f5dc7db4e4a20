/** What comes of "ready by that day": the chances stated after a week, and how many were ready, for who practises by plans and who plays the current rung. */
import { readFileSync } from "node:fs";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { preparationCalled, type Rung, rungCalled } from "../../lib/drill/index.js";
import { type Deadline, nextTake, planSession } from "../../lib/plan/index.js";
import { drillStanding, isCompleted } from "../../lib/progress/index.js";
import type { Verdict } from "../../lib/schema/index.js";
import { type Outcome, reliability } from "./calibration.js";
import { LAWS, type Law } from "./policies/student.js";
import { type Play, type Policy, type Term, termUnder } from "./policies/term.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
/** Students of each law. */
const STUDENTS = Number(process.env.LEEWAY_STUDENTS ?? 4);
/** Seconds after which no further student is begun, for a look on a busy machine. */
const SECONDS = Number(process.env.LEEWAY_SECONDS ?? Number.POSITIVE_INFINITY);
const SESSIONS = 18;
const MINUTES = 20;
/** The session at whose beginning it is asked, from 1; the day after the last session, and points by which a tenth may be off. */
const ASKED = 5;
const ON = "2026-03-26";
const LIMIT = 10;
const REST = { after: 3, seconds: 45 };
const FILE = "quayside-first-course.yaml";

const read = readCurriculum(readFileSync(new URL(`../../curricula/${FILE}`, import.meta.url), "utf8"), {
  file: FILE,
  readFile: () => undefined,
});
if (!read.ok) throw new Error(FILE);
const course = read.value;

const requestOf = ({ standing, events, today, belief, seed, left }: Term) =>
  ({ curriculum: course, standing, events, today, belief, seed, minutes: left / 60, instrument: "trumpet" }) as const;

function playBy(term: Term, verdicts: readonly Verdict[], begun = planSession(requestOf(term))): Play | undefined {
  if (!begun.ok) return undefined;
  const next = nextTake(begun.value, verdicts);
  if (next === undefined) return undefined;
  const drill = course.drills.find(({ name }) => name === next.step.drill)!;
  const rung = (rungCalled(drill, next.step.rung) ?? preparationCalled(drill, next.step.rung))!;
  return { rung, isListening: next.step.kind === "preparation" && next.step.gate === undefined };
}

const WAYS: Readonly<Record<string, { readonly by: NonNullable<Deadline["practises"]>; readonly policy: Policy }>> = {
  "obeys the plan": {
    by: "the plan",
    policy: (term) => {
      const plan = planSession(requestOf(term));
      const verdicts: Verdict[] = [];
      return (last) => {
        if (last !== undefined) verdicts.push(last);
        return playBy(term, verdicts, plan);
      };
    },
  },
  "asks anew after each take": {
    by: "the plan",
    policy: (term) => () => (term.left <= 0 ? undefined : playBy(term, [])),
  },
  "plays the current rung": {
    by: "the current rung",
    policy: (term) => () => {
      const open = course.drills.find(({ name }) => drillStanding(term.standing, name)?.state === "open");
      const rung: Rung | undefined = open && rungCalled(open, drillStanding(term.standing, open.name)?.rung);
      return rung && { rung, isListening: false };
    },
  },
};

const laws = Object.keys(LAWS) as Law[];
const found = new Map<string, Outcome[]>(Object.keys(WAYS).map((way) => [way, []]));
const until = Date.now() + 1000 * SECONDS;
let students = 0;
all: for (let i = 0; i < STUDENTS; i++)
  for (const law of laws) {
    if (Date.now() > until) break all;
    students++;
    for (const [way, { by, policy }] of Object.entries(WAYS)) {
      const stated = new Map<string, number>();
      let session = 0;
      const asking: Policy = (term) => {
        if (++session === ASKED)
          for (const { name } of course.drills) {
            if (isCompleted(term.standing, name)) continue;
            const deadline = { on: ON, drill: name, minutes: MINUTES, daysAWeek: 5, practises: by };
            const plan = planSession({ ...requestOf(term), deadline });
            if (plan.ok) stated.set(name, plan.value.outlook!.chance);
          }
        return policy(term);
      };
      const { completed } = termUnder(asking, {
        course,
        law,
        seed: `${SEED}/ready ${law} ${i}`,
        ...(i % 2 === 0 ? {} : { near: "hard" as const }),
        sessions: SESSIONS,
        seconds: 60 * MINUTES,
        missed: 0.1,
        rest: REST,
        believes: true,
        chanceOf: () => 1,
      });
      for (const [name, chance] of stated) found.get(way)!.push({ chance, clean: completed.includes(name) });
    }
  }

console.log(
  `seed ${SEED}; ${students} students of ${laws.length} laws, every second finds the course hard; asked at session ${ASKED} of ${SESSIONS} (a tenth missed) of ${MINUTES} minutes, of each drill of ${FILE} that is not complete`,
);
for (const law of laws) console.log(`  ${law}: ${LAWS[law]}`);
console.log(
  "| who | stated | n | stated, mean | ready | off by, points | within 10 points |\n|---|---|---|---|---|---|---|",
);
for (const [way, outcomes] of found)
  for (const { from, to, count, forecast, clean } of reliability(outcomes)) {
    const off = 100 * (clean - forecast);
    const held = count < 30 ? "too few" : Math.abs(off) <= LIMIT ? "yes" : "NO";
    console.log(
      `| ${way} | ${Math.round(100 * from)}-${Math.round(100 * to)} % | ${count} | ${(100 * forecast).toFixed(1)} % | ${(100 * clean).toFixed(1)} % | ${off.toFixed(1)} | ${held} |`,
    );
  }
