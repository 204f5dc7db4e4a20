/** How good forecasts of clean takes are: Brier score against the running mean of past outcomes, and reliability in each tenth. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { random } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { findRung, rungs, scoreOf } from "../../lib/drill/index.js";
import {
  type Belief,
  DEFAULT_POPULATION,
  type Demand,
  demandOf,
  forecast,
  observationOf,
  populationOf,
  priorBelief,
  updateBelief,
} from "../../lib/plan/index.js";
import { findingSummary } from "../../lib/progress/journal/findingSummary.js";
import { type Player, playTake } from "../../lib/rehearsal/index.js";
import type { Score, Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { brierScore, type Outcome, type Reliability, reliability } from "./calibration.js";
import { MATERIALS, materialScore } from "./material.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
/** Enough that the share of clean takes in a tenth is known to about 1.5 points: then 5 points are more than chance. */
const STUDENTS = Number(process.env.LEEWAY_STUDENTS ?? 900);
/** Points by which a tenth may be off. */
const LIMIT = 0.05;
/** Forecasts below which a tenth is not judged: the plain standard error of its share is then up to half the limit, 0.5 / sqrt(500) = 2.2 points. */
const FEWEST = 500;
const TAKES = 40;

interface Asked {
  readonly score: Score;
  readonly demand: Demand;
}
interface Tried {
  readonly outcomes: Outcome[];
  readonly running: Outcome[];
  readonly belief: Belief;
}

/** Forecasts each take before it is played, then learns from it. */
function follow(
  course: {
    readonly asked: readonly Asked[];
    readonly takes: readonly { readonly which: number; readonly take: Take }[];
  },
  from: Belief,
): Tried {
  let belief = from;
  const outcomes: Outcome[] = [];
  const running: Outcome[] = [];
  let cleans = 0;
  course.takes.forEach(({ which, take }, n) => {
    const { score, demand } = course.asked[which]!;
    const { clean: chance } = forecast(belief, demand);
    const finding = assess(score, take);
    const clean = finding.verdict === "within";
    outcomes.push({ chance, clean });
    // Laplace's rule: better than the bare mean, which says 0 or 1 after one take.
    running.push({ chance: (cleans + 1) / (n + 2), clean });
    if (clean) cleans++;
    belief = updateBelief(belief, observationOf(demand, findingSummary(finding)));
  });
  return { outcomes, running, belief };
}

function shippedScores(): Asked[] {
  const folder = new URL("../../curricula/", import.meta.url);
  const asked: Asked[] = [];
  for (const file of readdirSync(folder)
    .filter((name) => name.endsWith(".yaml"))
    .sort()) {
    const course = readCurriculum(readFileSync(new URL(file, folder), "utf8"), { file, readFile: () => undefined });
    if (!course.ok) throw new Error(file);
    for (const drill of course.value.drills) {
      const all = rungs(drill);
      for (const index of new Set([0, Math.floor((all.count - 1) / 2), all.count - 1])) {
        const score = scoreOf(all.at(index));
        asked.push({ score, demand: demandOf(score) });
      }
    }
  }
  return asked;
}

function benchScores(): Asked[] {
  return MATERIALS.flatMap((material) =>
    [2, 4, 8].flatMap((silentBeats) =>
      [5, 9].map((tolerancePercent) => {
        const score = materialScore(material, { bpm: 92, silentBeats, tolerancePercent });
        return { score, demand: demandOf(score) };
      }),
    ),
  );
}

/** A student whose noise shrinks with practice: a start, an end and a rate of their own. */
function student(seed: string): (n: number) => Player {
  const chance = random(seed);
  const motorMs = 13 * Math.exp(0.55 * chance.normal());
  const clockMs = motorMs * 0.85 * Math.exp(0.3 * chance.normal());
  const biasPercent = clockMs * 0.12 * Math.exp(0.4 * chance.normal());
  const correction = 0.25 + 0.25 * chance.uniform();
  const offsetMs = -20 + 60 * (chance.uniform() - 0.5);
  const missing = 0.04 * chance.uniform();
  const excess = 1.2 * chance.uniform();
  const rate = 1 / (8 + 40 * chance.uniform());
  return (n) => {
    const by = 1 + excess * Math.exp(-rate * n);
    return {
      motorMs: motorMs * by,
      clockMs: clockMs * by,
      biasPercent: biasPercent * by,
      correction,
      offsetMs,
      missing,
      adding: missing,
    };
  };
}

function simulate(name: string, from: Belief, asked: readonly Asked[]): Tried {
  const player = student(name);
  const chance = random(`${name}/order`);
  // As in practice: a handful of rungs for some takes each, the same ones coming back.
  const own = Array.from({ length: 6 }, () => chance.below(asked.length));
  const takes = Array.from({ length: TAKES }, (_, n) => {
    const which = own[Math.min(5, Math.floor(n / 8) + chance.below(2))]!;
    return { which, take: playTake(asked[which]!.score, player(n), `${name}/${n}`).take };
  });
  return follow({ asked, takes }, from);
}

/** Standard error of a row's share when the takes of one player are not independent: the root of the summed squares of each player's sum, over n. */
function errorByPlayers(tried: readonly Tried[], { from, to, count }: Reliability): number {
  const sums = tried.map(({ outcomes }) =>
    outcomes
      .filter(({ chance }) => chance >= from && (chance < to || to === 1))
      .reduce((sum, { chance, clean }) => sum + (clean ? 1 : 0) - chance, 0),
  );
  return count === 0 ? 0 : Math.sqrt(sums.reduce((sum, each) => sum + each ** 2, 0)) / count;
}

function report(title: string, tried: readonly Tried[]): void {
  const outcomes = tried.flatMap((each) => each.outcomes);
  const running = tried.flatMap((each) => each.running);
  const mean = outcomes.filter(({ clean }) => clean).length / outcomes.length;
  console.log(`\n${title}: ${tried.length} players, ${outcomes.length} takes, ${(100 * mean).toFixed(1)} % clean`);
  console.log(
    `  Brier score: forecast ${brierScore(outcomes).toFixed(4)}, running mean of past outcomes ${brierScore(running).toFixed(4)}, always ${mean.toFixed(2)} ${(mean * (1 - mean)).toFixed(4)}`,
  );
  console.log(
    "  | forecast     |     n | forecast | clean  | off by  | sampling error | by players | within 5 points |",
  );
  console.log("  |---|---|---|---|---|---|---|---|");
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const rows = reliability(outcomes).map((row) => ({ ...row, error: errorByPlayers(tried, row) }));
  const judged = rows.filter(({ count }) => count >= FEWEST);
  const off = (row: Reliability): number => row.clean - row.forecast;
  for (const row of rows) {
    const cells = [
      `${Math.round(100 * row.from)}-${Math.round(100 * row.to)} %`.padEnd(12),
      String(row.count).padStart(5),
      percent(row.forecast).padStart(8),
      percent(row.clean).padStart(6),
      `${(100 * off(row)).toFixed(1)}`.padStart(7),
      percent(row.samplingError).padStart(14),
      percent(row.error).padStart(10),
      (judged.includes(row) ? (Math.abs(off(row)) <= LIMIT ? "yes" : "NO") : "too few").padEnd(15),
    ];
    console.log(`  | ${cells.join(" | ")} |`);
  }
  const held = judged.filter((row) => Math.abs(off(row)) <= LIMIT).length;
  const furthest = Math.max(0, ...judged.map((row) => Math.abs(off(row))));
  console.log(
    `  ${held} of ${judged.length} tenths judged are within 5 points, the furthest is off by ${(100 * furthest).toFixed(1)}`,
  );
}

const only = process.env.LEEWAY_ONLY;
if (only !== "real") {
  const asked = [...shippedScores(), ...benchScores()];
  console.log(`seed ${SEED}; ${asked.length} rungs; the population is learnt from other players`);
  console.log(
    `by players: standard error of the share when the takes of one player hang together; a tenth is judged from ${FEWEST} forecasts on`,
  );
  const others = Array.from({ length: STUDENTS }, (_, i) =>
    simulate(`${SEED}/other ${i}`, priorBelief(DEFAULT_POPULATION), asked),
  );
  report("simulated students, built-in population", others);
  const population = populationOf(others.map(({ belief }) => belief));
  report(
    "simulated students, population learnt from those above",
    Array.from({ length: STUDENTS }, (_, i) => simulate(`${SEED}/student ${i}`, priorBelief(population), asked)),
  );
}

const trials = new URL("../../../shared/reference/continuation/trials.jsonl", import.meta.url);
if (only === "simulated") console.log("\nreal continuation trials: left out");
else if (!existsSync(trials))
  console.log("\nskipped: real continuation trials, because ../shared/reference/continuation is not there");
else {
  interface Trial {
    readonly experiment: string;
    readonly subject: number;
    readonly trial: number;
    readonly ioi: 400 | 600;
    readonly taps: readonly (readonly [number, string])[];
  }
  const text = readFileSync(new URL("../take/continuation.yaml", import.meta.url), "utf8");
  const course = readCurriculum(text, { file: "continuation.yaml", readFile: () => undefined });
  if (!course.ok) throw new Error("continuation.yaml");
  const asked = ["tempo=150", "tempo=100"].map((rung) => {
    const found = findRung(course.value.drills[0]!, rung);
    if (!found.ok) throw new Error(rung);
    const score = scoreOf(found.value);
    return { score, demand: demandOf(score) };
  });
  const players = new Map<string, Trial[]>();
  for (const line of readFileSync(trials, "utf8").trim().split("\n")) {
    const trial = JSON.parse(line) as Trial;
    const name = `${trial.experiment}/${trial.subject}`;
    players.set(name, [...(players.get(name) ?? []), trial]);
  }
  const all = [...players.values()].map((each) =>
    [...each]
      .sort((a, b) => a.trial - b.trial)
      .map(({ ioi, taps }) => ({
        which: ioi === 400 ? 0 : 1,
        take: { onsets: taps.map(([at]) => at / 1000), zero: "bar-1" as const },
      })),
  );
  // Two halves, each forecast with the population the other half shows.
  const halves = [0, 1].map((half) => all.filter((_, i) => i % 2 === half));
  const first = halves.map((half) => half.map((takes) => follow({ asked, takes }, priorBelief())));
  report("real players, built-in population", first.flat());
  const second = halves.map((half, i) => {
    const population = populationOf(first[1 - i]!.map(({ belief }) => belief));
    return half.map((takes) => follow({ asked, takes }, priorBelief(population)));
  });
  report("real players, population learnt from the other half of them", second.flat());
}
