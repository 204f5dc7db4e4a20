import { FAULTLESS, GRADE_NAMES } from "../../reference/players/grades.js";
import { adds, misses } from "../../reference/players/habits/accidents.js";
import { doubledNotes, fills, graceNotes } from "../../reference/players/habits/ornaments.js";
import { otherSwing } from "../../reference/players/habits/swing.js";
import { randomPitches } from "../../reference/players/habits/wrongNotes.js";
import { phaseCorrection } from "../../reference/players/laws/index.js";
import type { Material } from "../../reference/players/materials.js";
import { everyLaw } from "./cast.js";
import type { Judged } from "./judged.js";
import { type PlayedTake, playRow, type Row } from "./row.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { shareText, wilson } from "./wilson.js";

const isIn = (judged: Judged): boolean => judged.true === "in";
const exact = { law: phaseCorrection, temper: FAULTLESS };

const ROWS: readonly Row[] = [
  ...GRADE_NAMES.flatMap((grade) =>
    [0, 1, 3, 10, 30].map((missed) => {
      // Beyond 3 % a player who leaves out is asked about, not one who adds as much.
      const added = Math.min(missed, 3);
      const habits = missed === 0 ? [] : [misses(missed), adds(added)];
      return { name: `${grade}, ${missed} % missed, ${added} % added`, player: everyLaw(grade, { habits }) };
    }),
  ),
  { name: "able, grace notes on 25 %", player: everyLaw("able", { habits: [graceNotes(25)] }) },
  { name: "able, doubled notes on 25 %", player: everyLaw("able", { habits: [doubledNotes(25)] }) },
  { name: "able, fills on 30 %", player: everyLaw("able", { habits: [fills(30)] }) },
  { name: "able, pitches at random", player: everyLaw("able", { habits: [randomPitches] }) },
  ...(["throughout", "in silences"] as const).map((where) => ({
    name: `able, straight for swung and back, ${where}`,
    player: everyLaw("able", { habits: [otherSwing(where)] }),
  })),
  { name: "seasoned, t3 hand", player: everyLaw("seasoned", { tail: 3 }) },
  { name: "able, t3 hand", player: everyLaw("able", { tail: 3 }) },
  { name: "novice, t3 hand", player: everyLaw("novice", { tail: 3 }) },
  { name: "able, untold latency 300 ms", player: everyLaw("able", { recording: { delay: 0.3 } }) },
  { name: "able, untold latency 400 ms", player: everyLaw("able", { recording: { delay: 0.4 } }) },
  {
    name: "able, clock 200 ppm fast, latency 60 ms",
    player: everyLaw("able", { recording: { delay: 0.06, skew: 2e-4 } }),
  },
  { name: "exact, every note on the grid", player: () => exact },
  { name: "exact, every note 40 ms late", player: () => ({ ...exact, recording: { delay: 0.04 } }) },
].map((row) => ({ ...row, counts: isIn }));

/** Players in time: how often their silences are called beyond, or not judged at all. */
export function printHonestTable(materials: readonly Material[], title: string): void {
  const rows = ROWS.filter(({ name }) => SIZE.rows.test(name));
  if (rows.length === 0) return;
  const head = [
    "in time (both below 0.9 x the limit)",
    "n",
    "left out",
    "pitches: beyond",
    "unclear",
    "onsets only: beyond",
    "unclear",
    "takes p: w/b/u",
    "takes o: w/b/u",
  ];
  printTable(
    title,
    head,
    rows.map((row) => cells(row.name, playRow(row, materials))),
  );
}

function cells(name: string, takes: readonly PlayedTake[]): readonly string[] {
  const ways = [takes.map(({ pitched }) => pitched), takes.map(({ onsetsOnly }) => onsetsOnly)];
  const inTime = ways.map((way) => way.flatMap(({ silences }) => silences).filter(isIn));
  const bounded = (way: number, verdict: string): string =>
    shareText(wilson(inTime[way]!.filter((each) => each.verdict === verdict).length, inTime[way]!.length));
  const verdicts = ways.map((way) =>
    ["within", "beyond", "unclear"].map((verdict) => way.filter((take) => take.verdict === verdict).length).join("/"),
  );
  const leftOut = inTime[0]!.filter(({ truth }) => truth.landingMs !== undefined && !truth.landingPlayed).length;
  return [
    name,
    String(inTime[0]!.length),
    String(leftOut),
    bounded(0, "beyond"),
    bounded(0, "unclear"),
    bounded(1, "beyond"),
    bounded(1, "unclear"),
    verdicts[0]!,
    verdicts[1]!,
  ];
}
