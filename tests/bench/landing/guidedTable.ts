import { readFileSync } from "node:fs";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { findRung, scoreOf } from "../../../lib/drill/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { FAULTLESS, GRADE_NAMES } from "../../reference/players/grades.js";
import { phaseCorrection } from "../../reference/players/laws/index.js";
import { perform } from "../../reference/players/perform.js";
import { must } from "../../time/shorthand.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";

const COURSE = "curricula/quayside-wind-and-brass.yaml";
const RUNGS = [
  "dropout=1 bar,parts=kit,tempo=100,variant=plain",
  "dropout=2 bars,parts=kit,tempo=100,variant=plain",
  "dropout=2 bars,parts=kit,tempo=112,variant=busy",
] as const;

/** Silences in which the bass goes on, so that a player is guided: a rung on which even an exact player is always unclear cannot be left. */
export function printGuidedTable(): void {
  if (!SIZE.rows.test("guided")) return;
  const { drills } = must(readCurriculum(readFileSync(COURSE, "utf8"), { file: COURSE, readFile: () => undefined }));
  const drill = drills.find(({ name }) => name === "lantern-dropouts")!;
  const players = [["exact", FAULTLESS] as const, ...GRADE_NAMES.map((grade) => [grade, grade] as const)];
  const count = Math.max(4, Math.round(SIZE.silences / 4));
  const verdictsOf = (score: Score, temper: (typeof players)[number][1]): string => {
    const found = Array.from({ length: count }, (_, take) =>
      assess(score, perform(score, { law: phaseCorrection, temper }, [SIZE.seed, "guided", score.rung, take]).take),
    );
    return ["within", "beyond", "unclear"]
      .map((each) => found.filter(({ verdict }) => verdict === each).length)
      .join("/");
  };
  const rows = RUNGS.map((rung) => {
    const score = scoreOf(must(findRung(drill, rung)), "play");
    return [`${drill.name}, ${rung}`, ...players.map(([, temper]) => verdictsOf(score, temper))];
  });
  const head = ["guided: only the kit falls silent", ...players.map(([name]) => name)];
  printTable(
    `Silences in which part of the accompaniment goes on: takes within/beyond/unclear of ${count}`,
    head,
    rows,
  );
}
