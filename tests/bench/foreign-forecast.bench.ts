/** How reliable forecasts are on students of laws the library does not know: by tenths, in all and for takes with silences. */
import { readFileSync } from "node:fs";
import { random } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { type Rung, rungCalled, rungs } from "../../lib/drill/index.js";
import { forecast } from "../../lib/plan/index.js";
import { drillStanding } from "../../lib/progress/index.js";
import { brierScore, reliability } from "./calibration.js";
import { LAWS, type Law } from "./policies/student.js";
import { type Forecasted, type Policy, type Term, termUnder } from "./policies/term.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
/** Students of each law. */
const STUDENTS = Number(process.env.LEEWAY_STUDENTS ?? 6);
/** Points by which a tenth may be off, and forecasts from which on it is judged. */
const LIMIT = 5;
const FEWEST = 500;
const SESSIONS = 20;
const MINUTES = 20;
/** Rungs above the student's own that are tried, so that all chances occur. */
const ABOVE = 3;
const FILES = ["quayside-first-course.yaml", "quayside-wind-and-brass.yaml"];

const courses = FILES.map((file) => {
  const text = readFileSync(new URL(`../../curricula/${file}`, import.meta.url), "utf8");
  const read = readCurriculum(text, { file, readFile: () => undefined });
  if (!read.ok) throw new Error(file);
  return read.value;
});

/** The student's rung mostly, and now and then one of any drill, easier or harder: what is heard of a student is never all of one kind. */
const wandering: Policy = ({ course, standing, seed, today }: Term) => {
  const chance = random(`${seed}/wandering ${today}`);
  let [rung, left]: [Rung | undefined, number] = [undefined, 0];
  return () => {
    if (left-- > 0 && rung !== undefined) return { rung, isListening: false };
    left = chance.below(4);
    const drill = course.drills[chance.below(course.drills.length)]!;
    const own = rungCalled(drill, drillStanding(standing, drill.name)?.rung)?.index ?? chance.below(rungs(drill).count);
    const index = Math.max(0, Math.min(rungs(drill).count - 1, own + chance.below(2 * ABOVE + 1) - ABOVE));
    rung = rungs(drill).at(index);
    return { rung, isListening: false };
  };
};

const laws = Object.keys(LAWS) as Law[];
const found: Forecasted[] = [];
for (const law of laws)
  for (let i = 0; i < STUDENTS; i++)
    found.push(
      ...termUnder(wandering, {
        course: courses[i % courses.length]!,
        law,
        seed: `${SEED}/foreign ${law} ${i}`,
        sessions: SESSIONS,
        seconds: 60 * MINUTES,
        missed: 0.1,
        rest: { after: 4, seconds: 45 },
        believes: true,
        chanceOf: (each, { belief, demands }) => forecast(belief, demands.of(each).demand).clean,
      }).forecasts,
    );

console.log(
  `seed ${SEED}; ${STUDENTS} students of each of ${laws.length} laws; ${SESSIONS} sessions of ${MINUTES} minutes, a tenth of them missed; ${FILES.join(", ")}`,
);
for (const law of laws) console.log(`  ${law}: ${LAWS[law]}`);
console.log(
  "| takes | forecast | n | forecast, mean | clean | off by, points | within 5 points |\n|---|---|---|---|---|---|---|",
);
for (const [title, outcomes] of [
  ["all", found],
  ["with silences", found.filter(({ silent }) => silent)],
] as const) {
  for (const { from, to, count, forecast: said, clean } of reliability(outcomes)) {
    const off = 100 * (clean - said);
    const held = count < FEWEST ? "too few" : Math.abs(off) <= LIMIT ? "yes" : "NO";
    const cells = [
      title,
      `${Math.round(100 * from)}-${Math.round(100 * to)} %`,
      `${count}`,
      `${(100 * said).toFixed(1)} %`,
      `${(100 * clean).toFixed(1)} %`,
      off.toFixed(1),
      held,
    ];
    console.log(`| ${cells.join(" | ")} |`);
  }
  console.log(`${title}: ${outcomes.length} takes, Brier score ${brierScore(outcomes).toFixed(4)}`);
}
