import type { Score, Take } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { phaseCorrection } from "../../reference/players/laws/index.js";
import { type Luck, luckOf } from "../../reference/players/luck.js";
import type { Material } from "../../reference/players/materials.js";
import { anotherTune, atAnotherTempo, randomOnsets, speech } from "../../reference/players/notTheRiff.js";
import { perform, withoutPitch } from "../../reference/players/perform.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { percent } from "./wilson.js";

type Address = readonly (string | number)[];
type Foreign = (material: Material, luck: Luck, address: Address) => Take | undefined;

const plays = (score: Score, address: Address): Take =>
  perform(score, { law: phaseCorrection, temper: "able" }, address).take;

const ROWS: readonly (readonly [name: string, play: Foreign])[] = [
  ["random onsets, riff's pitches", ({ score }, luck) => randomOnsets(score, luck)],
  ["speech (invented)", ({ score }, luck) => speech(score, luck)],
  ["another tune, in time", ({ score }, luck, address) => plays(anotherTune(score, luck), address)],
  ["the other variant, in time", ({ otherVariant }, _luck, address) => otherVariant && plays(otherVariant, address)],
  ["the riff at 84 for 76", ({ score }, _luck, address) => plays(atAnotherTempo(score, 76 / 84), address)],
  ["the riff at 76 for 84", ({ score }, _luck, address) => plays(atAnotherTempo(score, 84 / 76), address)],
  ["the riff 4 % slower", ({ score }, _luck, address) => plays(atAnotherTempo(score, 1.04), address)],
];

/** What is not the riff of the rung: any verdict but unclear is wrong, of takes and of silences. */
export function printForeignTable(materials: readonly Material[]): void {
  const rows = ROWS.filter(([name]) => SIZE.rows.test(name));
  if (rows.length === 0) return;
  const head = [
    "not the riff",
    "takes",
    "pitches: takes w/b/u",
    "silences w/b/u",
    "judged",
    "onsets only: takes w/b/u",
    "silences w/b/u",
    "judged",
    "reasons of takes (pitches)",
  ];
  printTable(
    "What is not the riff",
    head,
    rows.map(([name, play]) => cells(name, play, materials)),
  );
}

function cells(name: string, play: Foreign, materials: readonly Material[]): readonly string[] {
  const takes: { readonly score: Score; readonly take: Take }[] = [];
  for (let round = 0; takes.length * 4 < SIZE.silences; round++) {
    for (const material of materials) {
      const address = [SIZE.seed, name, material.name, round];
      const take = play(material, luckOf(...address), address);
      if (take !== undefined) takes.push({ score: material.score, take });
    }
  }
  const ways = [takes, takes.map(({ score, take }) => ({ score, take: withoutPitch(take) }))].map((way) =>
    way.map(({ score, take }) => assess(score, take)),
  );
  const counted = ways.flatMap((findings) => {
    const silences = findings.flatMap(({ dropouts }) => dropouts);
    const judged = silences.filter(({ verdict }) => verdict !== "unclear").length / silences.length;
    return [verdictsOf(findings), verdictsOf(silences), `${percent(judged)} %`];
  });
  const reasons = new Map<string, number>();
  for (const { reasons: each } of ways[0]!)
    for (const code of new Set(each.flatMap(({ code, dropout }) => (dropout === undefined ? [code] : []))))
      reasons.set(code, (reasons.get(code) ?? 0) + 1);
  const named = [...reasons].sort((a, b) => b[1] - a[1]).map(([code, count]) => `${code} ${count}`);
  return [name, String(takes.length), ...counted, named.join(", ") || "none"];
}

function verdictsOf(all: readonly { readonly verdict: string }[]): string {
  return ["within", "beyond", "unclear"]
    .map((verdict) => all.filter((each) => each.verdict === verdict).length)
    .join("/");
}
