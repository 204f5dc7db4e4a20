import { blindSlips, SLIP_SHOWN } from "../../../lib/take/index.js";
import type { Judged } from "./judged.js";
import type { PlayedTake } from "./row.js";
import { printTable } from "./textTable.js";
import { shareText, wilson } from "./wilson.js";

/** Sizes of slips are whole parts of a beat; a player's own drift is not far from them, in beats. */
const SAME_SIZE = 0.15;
const CLASSES = ["shown by the rhythm", "hidden by it", "of a size not looked for"] as const;

/** Slips on onsets alone by what `blindSlips` says of them from the score: where the rhythm shows a slip it must not be called within. */
export function printShownTable(takes: readonly PlayedTake[]): void {
  const foretold = new Map(takes.map(({ material }) => [material, blindSlips(material.score)]));
  const classOf = (
    { material, performance }: PlayedTake,
    judged: Judged,
    silence: number,
  ): (typeof CLASSES)[number] => {
    const { slipBeats, landingMs } = judged.truth;
    // Who slipped before is displaced at this landing by as much.
    const beats = Math.abs(slipBeats) > SAME_SIZE ? slipBeats : (landingMs ?? 0) / 1000 / material.score.beat;
    const { dropout } = performance.stage.silences[silence]!;
    const slip = foretold
      .get(material)!
      .find((each) => each.dropout === dropout && Math.abs(each.beats - Math.abs(beats)) < SAME_SIZE);
    if (slip === undefined) return "of a size not looked for";
    return slip.logOdds >= SLIP_SHOWN ? "shown by the rhythm" : "hidden by it";
  };
  const judged = takes.flatMap((take) =>
    take.onsetsOnly.silences.flatMap((each, silence) =>
      each.true === "out" ? [{ verdict: each.verdict, is: classOf(take, each, silence) }] : [],
    ),
  );
  const rows = CLASSES.map((name) => {
    const here = judged.filter(({ is }) => is === name);
    const share = (verdict: string): string =>
      shareText(wilson(here.filter((each) => each.verdict === verdict).length, here.length));
    return here.length === 0
      ? [name, "0"]
      : [name, String(here.length), share("within"), share("beyond"), share("unclear")];
  });
  printTable(
    "Slips on onsets alone, by what the score foretells",
    ["the slip is", "n", "within", "beyond", "unclear"],
    rows,
  );
}
