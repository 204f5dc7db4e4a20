/**
 * The gate: students whose true chance of a clean take is known are taken through `decide` on rungs of the shipped courses, and how many are let on within 5, 10 and
 * 20 takes is set beside what `leeway gate` says at most for that chance. A clean take is one of a seasoned or able player with every silence truly in; the others slip, land
 * off or leave out what was asked for. Students of one kind draw from the same assessed takes (`LEEWAY_TAKES` of them on each rung), `LEEWAY_STUDENTS` on each rung
 * (2,000 of them and 200 takes tell one point on a rung; the intervals are about the students and not about the takes they draw from).
 */

import { asJudged, gateCurve, NONE_TOLD, NONE_TOLD_SLIPS_HIDDEN, type VerdictRates } from "../../lib/progress/index.js";
import type { Finding } from "../../lib/schema/index.js";
import { assess, blindSlips, SLIP_SHOWN } from "../../lib/take/index.js";
import { DRIFTER } from "../reference/players/grades.js";
import { misses } from "../reference/players/habits/accidents.js";
import { landingAlone, landingLeftOut } from "../reference/players/habits/landings.js";
import { restsInSilences } from "../reference/players/habits/silences.js";
import { slip } from "../reference/players/habits/slips.js";
import { luckOf } from "../reference/players/luck.js";
import { type Material, materials } from "../reference/players/materials.js";
import { type Performance, type Player, perform, withoutPitch } from "../reference/players/perform.js";
import type { Habit } from "../reference/players/plan.js";
import { stageOf } from "../reference/players/stage.js";
import { everybody, everyLaw } from "./landing/cast.js";
import { type GateRung, gateRung, type Pool, takesUntilLetOn } from "./landing/gateStudents.js";
import { trueClass } from "./landing/judged.js";
import { SIZE } from "./landing/size.js";
import { printTable } from "./landing/textTable.js";
import { percent, shareText, wilson } from "./landing/wilson.js";

const TAKES = Number(process.env.LEEWAY_TAKES ?? 12);
const STUDENTS = Number(process.env.LEEWAY_STUDENTS ?? 30);
const WITHIN = [5, 10, 20] as const;
const MOST = 20;
/** Takes tried for each that is wanted, before a kind is given up on a rung. */
const PATIENCE = 5;

/** How a take fails: by a habit, or by drift. */
type Failing = Habit | "drifts";

const FAILINGS: readonly Failing[] = [
  "drifts",
  landingLeftOut("one"),
  landingLeftOut("every"),
  landingAlone("every", 250, 400),
  slip({ way: "waits", size: "half a beat", place: "at the landing", end: 1, often: "every" }),
  slip({ way: "skips", size: "half a beat", place: "in the silence", end: 1, often: "every" }),
  slip({ way: "skips", size: "a beat", place: "in the silence", end: 1, often: "every" }),
  slip({ way: "waits", size: "a beat", place: "in the silence", end: 1, often: "one" }),
  slip({ way: "skips", size: "a beat", place: "in the silence", end: "kept", often: "one" }),
  restsInSilences,
];

type Way = "pitches" | "onsets only";
const WAYS: readonly Way[] = ["pitches", "onsets only"];

/** Takes of a player on a rung that truly are as wanted, assessed. */
function findingsOf(
  { score, name }: Material,
  who: {
    readonly label: string;
    readonly player: ReturnType<typeof everybody>;
    readonly wanted: (performance: Performance) => boolean;
  },
  way: Way,
): readonly Finding[] {
  const found: Finding[] = [];
  for (let take = 0; found.length < TAKES && take < PATIENCE * TAKES; take++) {
    const player = who.player(take);
    const performance = perform(score, player, [SIZE.seed, "gate", who.label, name, take]);
    if (who.wanted(performance))
      found.push(assess(score, way === "pitches" ? performance.take : withoutPitch(performance.take)));
  }
  return found;
}

interface Rung {
  readonly material: Material;
  readonly gate: GateRung;
  readonly clean: Readonly<Record<Way, readonly Finding[]>>;
}

function rungOf(material: Material): Rung {
  const { score } = material;
  const wanted = ({ truths, stage }: Performance): boolean =>
    truths.every(
      (truth, index) => truth.landingPlayed && trueClass(score, stage.silences[index]!.dropout, truth) === "in",
    );
  // Seasoned and able players alternate; each leaves out 1 % of the notes.
  const player = (take: number) => everyLaw(take % 2 === 0 ? "seasoned" : "able", { habits: [misses(1)] })(take);
  const clean = (way: Way): readonly Finding[] => findingsOf(material, { label: "clean", player, wanted }, way);
  return {
    material,
    gate: gateRung(material),
    clean: { pitches: clean("pitches"), "onsets only": clean("onsets only") },
  };
}

/** Takes with the habit that truly failed: a silence out, or a landing or a whole silence not played. */
function failedOf({ material }: Rung, failing: Failing, way: Way): readonly Finding[] {
  const isOut = ({ truths, stage }: Performance): boolean =>
    truths.some((truth, index) => trueClass(material.score, stage.silences[index]!.dropout, truth) === "out");
  if (failing === "drifts") {
    const player = (take: number): Player => ({ ...everyLaw("able")(take), temper: DRIFTER });
    return findingsOf(material, { label: failing, player, wanted: isOut }, way);
  }
  const habit = failing;
  if (habit.fits?.(stageOf(material.score), material.score) === false) return [];
  const asked = habit === restsInSilences || habit.name.startsWith("landing left out");
  const wanted = (performance: Performance): boolean => asked || isOut(performance);
  return findingsOf(material, { label: habit.name, player: everybody(habit), wanted }, way);
}

interface Outcome {
  readonly rung: string;
  readonly takes: readonly number[];
  readonly figures: readonly number[];
}

/** What `leeway gate` says at most: of takes without pitches where the rhythm hides a slip of a beat or less, more is called clean. */
function saidOf({ score }: Material, way: Way): VerdictRates {
  const hidden = blindSlips(score).some(({ beats, logOdds }) => beats <= 1 && logOdds < -SLIP_SHOWN);
  return way === "onsets only" && hidden ? NONE_TOLD_SLIPS_HIDDEN : NONE_TOLD;
}

function outcomesOf(
  rungs: readonly Rung[],
  { name, way, p, poolOf }: { name: string; way: Way; p: number; poolOf: (rung: Rung) => Pool },
): readonly Outcome[] {
  return rungs.flatMap((rung) => {
    const pool = poolOf(rung);
    if ((p < 1 && pool.failed.length === 0) || (p > 0 && pool.clean.length === 0)) return [];
    const said = asJudged(p, saidOf(rung.material, way));
    const { within } = gateCurve(rung.gate.drill.gate, said.p, { takes: MOST, unclear: said.unclear });
    const takes = Array.from({ length: STUDENTS }, (_, student) =>
      takesUntilLetOn(rung.gate, pool, {
        p,
        most: MOST,
        luck: luckOf(SIZE.seed, name, rung.material.name, p, student),
      }),
    );
    return [{ rung: rung.material.name, takes, figures: WITHIN.map((k) => within[k - 1]!) }];
  });
}

function cells(name: string, outcomes: readonly Outcome[]): readonly string[] {
  const students = outcomes.reduce((sum, { takes }) => sum + takes.length, 0);
  const letOn = (takes: readonly number[], k: number): number => takes.filter((each) => each <= k).length;
  const figures = WITHIN.flatMap((k, place) => {
    const found = outcomes.reduce((sum, { takes }) => sum + letOn(takes, k), 0);
    const figure = outcomes.reduce((sum, each) => sum + each.figures[place]!, 0) / outcomes.length;
    return [shareText(wilson(found, students)), percent(figure)];
  });
  const excess = outcomes.map(({ rung, takes, figures: each }) => ({
    rung,
    by: Math.max(...WITHIN.map((k, place) => letOn(takes, k) / takes.length - each[place]!)),
  }));
  const worst = excess.sort((a, b) => b.by - a.by)[0]!;
  return [name, String(outcomes.length), String(students), ...figures, `${percent(worst.by)} on ${worst.rung}`];
}

const rungs = materials().map(rungOf);
const rows = FAILINGS.flatMap((failing) =>
  WAYS.map((way) => ({
    name: `${failing === "drifts" ? failing : failing.name}, ${way}`,
    way,
    p: 0,
    poolOf: (rung: Rung) => ({ clean: [], failed: failedOf(rung, failing, way) }),
  })),
);
const pools = new Map<string, Pool>();
const mixed = [0.5, 0.7, 0.9].flatMap((p) =>
  WAYS.map((way) => ({
    name: `clean ${percent(p)} %, else any of these, ${way}`,
    way,
    p,
    poolOf: (rung: Rung): Pool => {
      const key = `${rung.material.name}/${way}`;
      const pool = pools.get(key) ?? {
        clean: rung.clean[way],
        failed: FAILINGS.flatMap((failing) => failedOf(rung, failing, way)),
      };
      pools.set(key, pool);
      return pool;
    },
  })),
);
const printed = [...rows, ...mixed].filter(({ name }) => SIZE.rows.test(name));
console.log(`seed ${SIZE.seed}, ${TAKES} takes of a kind on each rung, ${STUDENTS} students on each rung`);
printTable(
  "Let on within so many takes, per cent of students [95 %], and at most by the gate's curve for their true chance",
  [
    "truly",
    "rungs",
    "students",
    "within 5",
    "figure",
    "within 10",
    "figure",
    "within 20",
    "figure",
    "most above the figure",
  ],
  printed.map((row) => cells(row.name, outcomesOf(rungs, row))),
);
