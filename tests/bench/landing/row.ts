import { improvised } from "../../reference/players/improvised.js";
import { luckOf } from "../../reference/players/luck.js";
import type { Material } from "../../reference/players/materials.js";
import { type Performance, type Player, perform } from "../../reference/players/perform.js";
import { stageOf } from "../../reference/players/stage.js";
import { type Judged, type JudgedTake, judge } from "./judged.js";
import { SIZE, TAKES_PER_SILENCE } from "./size.js";

/** One row of a table: a kind of player, the same takes with pitches and without. */
export interface Row {
  readonly name: string;
  /** The player of a take, numbered from 0: grades and laws take turns. */
  readonly player: (take: number) => Player;
  /** Which silences the row is about; it runs until enough of them are counted. */
  readonly counts: (judged: Judged) => boolean;
}

export interface PlayedTake {
  readonly material: Material;
  readonly player: Player;
  readonly address: readonly (string | number)[];
  readonly performance: Performance;
  readonly pitched: JudgedTake;
  readonly onsetsOnly: JudgedTake;
}

/** Plays a row's takes over the materials in turn until enough silences count, or it has become clear that they will not. */
export function playRow({ name, player, counts }: Row, materials: readonly Material[]): readonly PlayedTake[] {
  const played: PlayedTake[] = [];
  let counted = 0;
  // One round of all materials at least, so that none is left out, and whole rounds, so that all weigh alike.
  for (let take = 0; counted < SIZE.silences && take < SIZE.silences * TAKES_PER_SILENCE; take += materials.length) {
    materials.forEach((material, place) => {
      const each = player(take + place);
      if (each.habits?.some(({ fits }) => fits?.(stageOf(material.score), material.score) === false)) return;
      // The habits are not in the address: rows that differ in them alone are about the same takes otherwise.
      const address = [SIZE.seed, each.law.name, String(each.temper), material.name, take];
      const meant = material.score.open.length > 0 ? improvised(material.score, luckOf(...address)) : material.score;
      const performance = perform(meant, each, address);
      const pitched = judge(material.score, performance, "pitches");
      const onsetsOnly = judge(material.score, performance, "onsets only");
      counted += pitched.silences.filter(counts).length;
      played.push({ material, player: each, address, performance, pitched, onsetsOnly });
    });
  }
  if (played.length === 0) console.log(`${name}: no rung has silences long enough for it`);
  return played;
}
