/** How many takes it takes to find a new student's rung, against climbing from the bottom, and how the student fares there. */
import { random } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { type Drill, rungs, scoreOf } from "../../lib/drill/index.js";
import { beginPlacing, placeAfter } from "../../lib/plan/index.js";
import { gateCurve } from "../../lib/progress/index.js";
import { findingSummary } from "../../lib/progress/journal/findingSummary.js";
import { type Player, playTake } from "../../lib/rehearsal/index.js";
import { assess } from "../../lib/take/index.js";
import { wilson } from "./landing/wilson.js";
import { placeApart } from "./policies/placing.js";
import { LAWS, type Law } from "./policies/student.js";
import { beginUpDown, settlesAt, stepUpDown } from "./upDown.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
const STUDENTS = Number(process.env.LEEWAY_STUDENTS ?? 40);
/** Takes by which the true chance on a rung is measured. */
const CHECKS = 20;
/** Takes after which a climb is broken off. */
const PATIENCE = 400;

const COURSE = (ladders: string): string => `
curriculum: quayside-placement
edition: 1.0.0
title: Quayside placement
patterns:
  dockside:
    meter: 4/4
    bars: 4
    key: D dorian
    parts:
      kit: { voices: { hat: "x-x-x-x- | same|same|x-x-x-xx", kick: "x---x---|same|same|x---x-x-" } }
      lead: { notes: "1/4 D4 - F4 A4 | G4 - 1/8 F4 F4 1/4 E4 | D4 - F4 A4 | G4 F4 E4 D4" }
drills:
  growing:
    title: Growing silences
    pattern: dockside
    student: lead
    dropout: { at: end, parts: [kit] }
    mixes: { play: { lead: off } }
    tolerance: { drift: 8 %, landing: 150 ms }
    gate: { clean: 3, of: 4 }
    ladders:
${ladders}`;

function drillWith(ladders: string): Drill {
  const course = readCurriculum(COURSE(ladders), { file: "placement", readFile: () => undefined });
  if (!course.ok) throw new Error(JSON.stringify(course.problems));
  return course.value.drills[0]!;
}

const LADDERS: readonly (readonly [string, string])[] = [
  ["one ladder of silences", "      - dropout: { from: 1/2 bar, to: 3 1/2 bars, by: 1/2 bar }\n    tempo: 96"],
  [
    "silences and tempi",
    "      - dropout: { from: 1/2 bar, to: 3 1/2 bars, by: 1/2 bar }\n      - tempo: { from: 60, to: 140, by: 4 }",
  ],
  [
    "more than 10^9 rungs",
    "      - dropout: { from: 1/2 bar, to: 3 1/2 bars, by: 1/64 bar }\n      - tempo: { from: 60, to: 140, by: 0.00001 }",
  ],
];

function student(seed: string): Player {
  const chance = random(seed);
  const motorMs = 9 * Math.exp(0.55 * chance.normal());
  const clockMs = motorMs * 0.85 * Math.exp(0.3 * chance.normal());
  return {
    motorMs,
    clockMs,
    biasPercent: clockMs * 0.12 * Math.exp(0.4 * chance.normal()),
    correction: 0.25 + 0.25 * chance.uniform(),
    offsetMs: -20,
    missing: 0.02,
    adding: 0.02,
  };
}

interface Found {
  readonly takes: number;
  readonly index: number;
  /** Share of clean takes on the rung found. */
  readonly clean: number;
}

function measure(drill: Drill): { bayes: Found[]; upDown: Found[]; climb: Found[]; gate: number[] } {
  const all = rungs(drill);
  const found = { bayes: [] as Found[], upDown: [] as Found[], climb: [] as Found[], gate: [] as number[] };
  for (let i = 0; i < STUDENTS; i++) {
    const name = `${SEED}/${i}`;
    const player = student(name);
    let played = 0;
    const play = (index: number): ReturnType<typeof findingSummary> => {
      const score = scoreOf(all.at(index));
      return findingSummary(assess(score, playTake(score, player, `${name}/${played++}`).take));
    };
    const clean = (index: number): boolean => play(index).verdict === "within";
    const shareAt = (index: number): number =>
      Array.from({ length: CHECKS }, () => clean(index)).filter(Boolean).length / CHECKS;
    const record = (list: Found[], takes: number, index: number): void =>
      void list.push({ takes, index, clean: shareAt(index) });

    let placing = beginPlacing(drill);
    while (!placing.done) placing = placeAfter(placing, play(placing.rung.index));
    record(found.bayes, placing.tried.length, placing.rung.index);

    // Kaernbach's steps for 85 %, beginning with a quarter of the ladder and halved at each turn, until a step is one rung.
    const rule = { clean: 1, up: 3, down: 17 };
    if (Math.abs(settlesAt(rule) - 0.85) > 1e-12) throw new Error("rule");
    let run = beginUpDown(0);
    let size = Math.max(1, all.count / 4 / rule.down);
    let [takes, turns] = [0, 0];
    const within = (level: number): number => Math.max(0, Math.min(all.count - 1, Math.round(level)));
    while ((size * rule.up > 0.5 || turns < 6) && takes < 60) {
      run = stepUpDown({ ...run, level: within(run.level) }, clean(within(run.level)), {
        clean: 1,
        up: Math.max(1, size * rule.up),
        down: Math.max(1, size * rule.down),
      });
      takes++;
      if (run.turns.length > turns) [turns, size] = [run.turns.length, size / 2];
    }
    record(found.upDown, takes, within(run.level));

    // Climbing: one rung for each clean take, until two in a row are not; on the rung before.
    let [index, misses, count] = [0, 0, 0];
    while (misses < 2 && index < all.count - 1 && count < PATIENCE) {
      count++;
      if (clean(index)) [index, misses] = [index + 1, 0];
      else misses++;
    }
    const there = misses < 2 ? index : Math.max(0, index - 1);
    record(found.climb, count, there);
    // With the drill's gate every rung below the one placed on costs the gate's expected takes, for a player who is clean 95 times in 100 there.
    const each = gateCurve(drill.gate, 0.95).expectedTakes as number;
    found.gate.push(placing.rung.index * each);
  }
  return found;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
const figure = (value: number): string => (value < 1e5 ? value.toFixed(1) : value.toExponential(1));

console.log(
  `seed ${SEED}, ${STUDENTS} new students, true share of clean takes measured by ${CHECKS} takes each; aim 85 %`,
);
console.log(
  "| ladder | way | takes, mean | takes, most | rung, median | at the bottom | clean there, mean | half or more clean there | above the bottom and fewer than half clean |",
);
console.log("|---|---|---|---|---|---|---|---|---|");
for (const [title, ladders] of LADDERS) {
  const drill = drillWith(ladders);
  const found = measure(drill);
  const ways: readonly (readonly [string, readonly Found[]])[] = [
    ["by forecast", found.bayes],
    ["up and down", found.upDown],
    [
      `climb, one clean take each${found.climb.some(({ takes }) => takes >= PATIENCE) ? ` (broken off at ${PATIENCE})` : ""}`,
      found.climb,
    ],
  ];
  for (const [way, list] of ways) {
    const takes = list.map((each) => each.takes);
    const cells = [
      `${title} (${rungs(drill).count})`,
      way,
      figure(mean(takes)),
      String(Math.max(...takes)),
      String(median(list.map(({ index }) => index))),
      String(list.filter(({ index }) => index === 0).length),
      `${(100 * mean(list.map(({ clean }) => clean))).toFixed(0)} %`,
      `${((100 * list.filter(({ clean }) => clean >= 0.5).length) / list.length).toFixed(0)} %`,
      `${((100 * list.filter(({ clean, index }) => index > 0 && clean < 0.5).length) / list.length).toFixed(0)} %`,
    ];
    console.log(`| ${cells.join(" | ")} |`);
  }
  console.log(
    `| ${title} | climb with the drill's gate, to the rung of the forecast | ${figure(mean(found.gate))} (computed) | | | | | | |`,
  );
}

/** Ladders as courses have them; the last two saw up and down in difficulty. */
const APART: readonly (readonly [string, string])[] = [
  LADDERS[0]!,
  [
    "silences that begin again at each tempo",
    "      - dropout: { from: 1/2 bar, to: 2 1/2 bars, by: 1/2 bar }\n        restart: bottom\n      - tempo: { from: 72, to: 108, by: 12 }",
  ],
  ["out of order", "      - dropout: [2 bars, 1/2 bar, 3 bars, 1 bar, 2 1/2 bars, 1 1/2 bars]\n    tempo: 96"],
];

console.log(
  `\nstudents written apart from the library, 5 % slips, ${STUDENTS} of each of ${Object.keys(LAWS).length} laws; a rung is within reach from 75 % truly clean on`,
);
console.log(
  "| ladder | takes, mean | most | more than two rungs too high (95 %) | two or more too low | truly clean there, mean | fewest takes before 'no easier rung' |",
);
console.log("|---|---|---|---|---|---|---|");
for (const [title, ladders] of APART) {
  const drill = drillWith(ladders);
  const list = (Object.keys(LAWS) as Law[]).flatMap((law) =>
    Array.from({ length: STUDENTS }, (_, i) => placeApart(drill, { law, seed: `${SEED}/apart ${law} ${i}` })),
  );
  const high = list.filter(({ tooHigh }) => tooHigh > 2).length;
  const { low, high: top } = wilson(high, list.length);
  const bottom = list.flatMap(({ noEasier }) => (noEasier === undefined ? [] : [noEasier]));
  const cells = [
    `${title} (${rungs(drill).count})`,
    figure(mean(list.map(({ takes }) => takes))),
    String(Math.max(...list.map(({ takes }) => takes))),
    `${((100 * high) / list.length).toFixed(1)} % (${(100 * low).toFixed(1)} to ${(100 * top).toFixed(1)})`,
    `${((100 * list.filter(({ tooHigh }) => tooHigh <= -2).length) / list.length).toFixed(0)} %`,
    `${(100 * mean(list.map(({ clean }) => clean))).toFixed(0)} %`,
    bottom.length === 0 ? "-" : String(Math.min(...bottom)),
  ];
  console.log(`| ${cells.join(" | ")} |`);
}
