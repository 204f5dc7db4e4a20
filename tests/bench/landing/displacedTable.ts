import { landingAlone } from "../../reference/players/habits/landings.js";
import type { Material } from "../../reference/players/materials.js";
import { everybody } from "./cast.js";
import type { Judged } from "./judged.js";
import { playRow } from "./row.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { percent, shareText, wilson } from "./wilson.js";

const MOVED = [0, 60, 80, 100, 130, 160, 200, 250, 300, 350, 400, 450] as const;

/** The landing of one silence alone moved by so many milliseconds, either way; counted are those silences (for 0: all), whatever the limit. */
export function printDisplacedTable(materials: readonly Material[]): void {
  if (!SIZE.rows.test("landing displaced by X")) return;
  const rows = [...MOVED, ...MOVED.slice(1).map((ms) => -ms)].map((ms) => {
    const habit = landingAlone("one", ms);
    const counts = ({ truth }: Judged): boolean => truth.landingPlayed && Math.round(truth.aloneMs) === ms;
    const takes = playRow({ name: habit.name, player: everybody(habit), counts }, materials);
    const ways = [takes.map(({ pitched }) => pitched), takes.map(({ onsetsOnly }) => onsetsOnly)];
    const cells = ways.flatMap((way) => {
      const all = way.flatMap(({ silences }) => silences).filter(counts);
      const share = (verdict: string): number => all.filter((each) => each.verdict === verdict).length;
      const near = all.filter(({ landingError }) => Math.abs(landingError ?? Infinity) < 30).length;
      return [
        shareText(wilson(share("within"), all.length)),
        percent(share("beyond") / all.length),
        percent(share("unclear") / all.length),
        percent(near / all.length),
      ];
    });
    return [`${ms} ms`, String(ways[0]!.flatMap(({ silences }) => silences).filter(counts).length), ...cells];
  });
  const way = ["within", "beyond", "unclear", "found < 30 ms"];
  printTable(
    "One landing displaced by X, the rest in time (limits 90 to 160 ms; the player's own drift adds)",
    ["X", "n", ...way.map((name) => `p: ${name}`), ...way.map((name) => `o: ${name}`)],
    rows,
  );
}
