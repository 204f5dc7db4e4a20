import { assess } from "../../../lib/take/index.js";
import { drumTakes, withLandingsMoved } from "../../reference/players/drummers.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { shareText, wilson } from "./wilson.js";

const MOVED = [0, 150, 200, 250, 300, -150, -200, -250, -300] as const;

/** Real drummers whose landing hit alone is moved: within is right for 0 and wrong for the others (landing limit 90 ms). */
export function printDrummersTable(): void {
  if (!SIZE.rows.test("real drummers")) return;
  const all = drumTakes();
  if (all === undefined) {
    console.log("\nskipped: real drummers, because ../shared/reference/groove is not there");
    return;
  }
  // Every k-th take, so that a small sample has all drummers.
  const step = Math.max(1, Math.floor((6 * all.length) / SIZE.silences));
  const takes = all.filter((_, index) => index % step === 0);
  const rows = MOVED.map((ms) => {
    const findings = takes.map((take) => assess(take.score, withLandingsMoved(take, ms)));
    const silences = findings.flatMap(({ dropouts }) => dropouts);
    const cell = (verdict: string): string =>
      shareText(wilson(silences.filter((each) => each.verdict === verdict).length, silences.length));
    return [`landing hit moved ${ms} ms`, String(silences.length), cell("within"), cell("beyond"), cell("unclear")];
  });
  printTable(
    `Real drummers, onsets only: ${takes.length} of ${all.length} straight takes of the Groove MIDI Dataset`,
    ["a bar in four declared silent", "n", "within", "beyond", "unclear"],
    rows,
  );
}
