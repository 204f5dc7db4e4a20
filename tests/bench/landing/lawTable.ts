import { DRIFTER, GRADE_NAMES, type Grade, type Temper } from "../../reference/players/grades.js";
import {
  accelerating,
  heldOut,
  type Law,
  lurch,
  oscillator,
  periodCorrection,
  phaseCorrection,
  turning,
  wanderingTempo,
  wobble,
} from "../../reference/players/laws/index.js";
import { luckOf } from "../../reference/players/luck.js";
import type { Material } from "../../reference/players/materials.js";
import { oracleOf } from "../../reference/players/oracle.js";
import { temperOf, traitsOf } from "../../reference/players/perform.js";
import type { Judged, JudgedTake } from "./judged.js";
import { type PlayedTake, playRow, type Row } from "./row.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { shareText, wilson } from "./wilson.js";

const NINETY = 1.6448536;

/** A law, and the degrees of freedom of its hand's tail. */
const KINDS: readonly (readonly [law: Law, tail?: number])[] = [
  [phaseCorrection],
  [phaseCorrection, 3],
  [periodCorrection],
  [wanderingTempo],
  [oscillator],
  [wobble],
  [accelerating],
  [lurch],
  [turning],
  ...(SIZE.heldOut ? [[heldOut] as const] : []),
];

const TEMPERS: readonly (readonly [name: string, temper: Grade | Temper])[] = [
  ...GRADE_NAMES.map((grade) => [grade, grade] as const),
  ["drifter (bias 6 %)", DRIFTER],
];

/** Players who leave nothing out: drift against the best estimate that knows the law, intervals, verdicts. */
export function printLawTable(materials: readonly Material[]): void {
  const head = [
    "law, grade",
    "n",
    "pitches: RMSE ms",
    "best ms",
    "ratio",
    "90 % covers",
    "onsets only: ratio",
    "90 % covers",
    "in: n",
    "beyond p",
    "unclear p",
    "unclear o",
    "out: n",
    "within p",
    "within o",
  ];
  const kinds = KINDS.flatMap(([law, tail]) =>
    TEMPERS.map(([grade, temper]) => ({
      name: `${law.name}${tail === undefined ? "" : `, t${tail} hand`}, ${grade}`,
      player: () => ({ law, temper, ...(tail === undefined ? {} : { tail }) }),
      counts: () => true,
    })),
  ).filter(({ name }) => SIZE.rows.test(name));
  if (kinds.length === 0) return;
  const rows = kinds.map((row: Row) => ({ name: row.name, takes: playRow(row, materials) }));
  printTable(
    "Laws of timing, nothing missed or added",
    head,
    rows.map(({ name, takes }) => cells(name, takes)),
  );
}

function cells(name: string, takes: readonly PlayedTake[]): readonly string[] {
  const best = takes.map(bestErrors);
  const pitched = takes.map((take) => take.pitched);
  const onsetsOnly = takes.map((take) => take.onsetsOnly);
  const [withPitch, without] = [pitched, onsetsOnly].map((way) => compare(way, best)) as [Compared, Compared];
  const count = (way: readonly JudgedTake[], which: Judged["true"], verdict: string): string => {
    const all = way.flatMap(({ silences }) => silences).filter((each) => each.true === which);
    return shareText(wilson(all.filter((each) => each.verdict === verdict).length, all.length));
  };
  const all = pitched.flatMap(({ silences }) => silences);
  return [
    name,
    String(all.length),
    withPitch.rmse.toFixed(1),
    withPitch.best?.toFixed(1) ?? "-",
    withPitch.ratio?.toFixed(3) ?? "-",
    withPitch.covers,
    without.ratio?.toFixed(3) ?? "-",
    without.covers,
    String(all.filter((each) => each.true === "in").length),
    count(pitched, "in", "beyond"),
    count(pitched, "in", "unclear"),
    count(onsetsOnly, "in", "unclear"),
    String(all.filter((each) => each.true === "out").length),
    count(pitched, "out", "within"),
    count(onsetsOnly, "out", "within"),
  ];
}

interface Compared {
  readonly rmse: number;
  /** Of the silences of takes that have a best estimate: root mean square error found over that of the best; undefined when there are none. */
  readonly ratio: number | undefined;
  readonly best: number | undefined;
  readonly covers: string;
}

function compare(way: readonly JudgedTake[], best: readonly (readonly number[] | undefined)[]): Compared {
  const measured = way.flatMap(({ silences }, take) =>
    silences.flatMap(({ drift }, index) => (drift === undefined ? [] : [{ ...drift, best: best[take]?.[index] }])),
  );
  const told = measured.filter((each) => each.best !== undefined);
  const covered = measured.filter(({ error, standardError }) => Math.abs(error) <= NINETY * standardError);
  const bestRmse = told.length === 0 ? undefined : rootMeanSquare(told.map((each) => each.best!));
  return {
    rmse: rootMeanSquare(measured.map(({ error }) => error)),
    ratio: bestRmse === undefined ? undefined : rootMeanSquare(told.map(({ error }) => error)) / bestRmse,
    best: bestRmse,
    covers: shareText(wilson(covered.length, measured.length)),
  };
}

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}

/** Errors of the estimate that is told law, temper, traits and usual place, and which note is which; milliseconds. */
function bestErrors({ player, performance, address, material }: PlayedTake): readonly number[] | undefined {
  const { stage, sounded, usual, truths, furthest } = performance;
  if (furthest >= player.law.linearWithin * stage.beat) return undefined;
  const oracle = oracleOf(player.law, stage, { temper: temperOf(player), traits: traitsOf(luckOf(...address)) });
  const late = sounded.map((at, note) => at - material.score.expected[note]!.at - usual);
  return oracle.drifts(late, player.tail).map((drift, index) => drift - truths[index]!.driftMs);
}
