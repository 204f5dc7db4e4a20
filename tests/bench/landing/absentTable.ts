import { landingLeftOut } from "../../reference/players/habits/landings.js";
import { playsSome, reactsToReturn, restsInSilences, stopsHalfWay } from "../../reference/players/habits/silences.js";
import type { Material } from "../../reference/players/materials.js";
import type { Habit } from "../../reference/players/plan.js";
import { everybody } from "./cast.js";
import type { Judged } from "./judged.js";
import { type PlayedTake, playRow } from "./row.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { percent, shareText, wilson } from "./wilson.js";

const leftOut = ({ truth }: Judged): boolean => truth.landingMs !== undefined && !truth.landingPlayed;
const any = (): boolean => true;

const ROWS: readonly (readonly [habit: Habit, counts: (judged: Judged) => boolean])[] = [
  [landingLeftOut("one"), leftOut],
  [landingLeftOut("every"), leftOut],
  [stopsHalfWay, leftOut],
  [restsInSilences, any],
  [reactsToReturn, any],
  ...(
    [
      [1, 5],
      [1, 4],
      [1, 2],
      [3, 4],
    ] as const
  ).map(([plays, of]) => [playsSome(plays, of), any] as const),
];

/** What was asked for was not played: the landing, or the notes of the silence. No verdict is called wrong here: they are counted. */
export function printAbsentTable(materials: readonly Material[]): void {
  const rows = ROWS.filter(([{ name }]) => SIZE.rows.test(name));
  if (rows.length === 0) return;
  const head = [
    "not played",
    "n",
    "p: within",
    "beyond",
    "unclear",
    "o: within",
    "beyond",
    "unclear",
    "said left out",
    "takes p: w/b/u",
    "takes o: w/b/u",
  ];
  printTable(
    "Landings left out (n: those silences) and silences hardly played (n: all silences), per cent",
    head,
    rows.map(([habit, counts]) =>
      cells(habit.name, playRow({ name: habit.name, player: everybody(habit), counts }, materials), counts),
    ),
  );
}

function cells(name: string, takes: readonly PlayedTake[], counts: (judged: Judged) => boolean): readonly string[] {
  const ways = [takes.map(({ pitched }) => pitched), takes.map(({ onsetsOnly }) => onsetsOnly)];
  const silences = ways.map((way) => way.flatMap((take) => take.silences).filter(counts));
  const verdictCells = silences.flatMap((all) => {
    const count = (verdict: string): number => all.filter((each) => each.verdict === verdict).length;
    return [
      shareText(wilson(count("within"), all.length)),
      percent(count("beyond") / all.length),
      percent(count("unclear") / all.length),
    ];
  });
  const asked = silences[0]!.filter((each) => leftOut(each) && each.saidLeftOut !== undefined);
  const said = asked.length === 0 ? "-" : percent(asked.filter(({ saidLeftOut }) => saidLeftOut).length / asked.length);
  const verdicts = ways.map((way) =>
    ["within", "beyond", "unclear"].map((verdict) => way.filter((take) => take.verdict === verdict).length).join("/"),
  );
  return [name, String(silences[0]!.length), ...verdictCells, said, verdicts[0]!, verdicts[1]!];
}
