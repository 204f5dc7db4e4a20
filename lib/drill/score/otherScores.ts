import type { Score } from "../../schema/index.js";
import type { Drill, Ladder, Settings } from "../model.js";
import { findRung } from "../rung/find.js";
import { ladderStep, ladderValue } from "../rung/ladder.js";
import type { Rung } from "../rung/rungs.js";
import { settingsText } from "../rung/settings.js";
import { scoreOf } from "./score.js";

/** How many scores at most: a take that is none of so many is told to be another riff, without its name (our choice). */
const MOST = 24;

/**
 * What may have been played instead of a rung: the drill in its other variants, and the other drills in each of theirs, with the rung's own
 * tempo, silence and so on where they have them, else with the first on the ladder. Made one after another, when they are asked for; at most 24.
 * Empty for a drill with one variant and no other drills.
 *
 * @example
 * assess(scoreOf(rung), take, { others: otherScores(rung) }).reasons[0]?.code // "ANOTHER_RUNG" when the take is the other variant
 */
export function otherScores(rung: Rung, drills: readonly Drill[] = [rung.drill]): Iterable<Score> {
  return {
    [Symbol.iterator]: () =>
      scoresBeside(rung, [rung.drill, ...drills.filter((drill) => drill.name !== rung.drill.name)]),
  };
}

function* scoresBeside(rung: Rung, drills: readonly Drill[]): Generator<Score> {
  let made = 0;
  for (const drill of drills)
    for (const text of settingsBeside(drill, rung.settings)) {
      const found = findRung(drill, text);
      const same = drill === rung.drill && found.ok && found.value.index === rung.index;
      if (!found.ok || same) continue;
      if (made++ === MOST) return;
      yield scoreOf(found.value);
    }
}

/** Settings of a drill, one for each of its variants. */
function settingsBeside(drill: Drill, own: Settings): readonly string[] {
  const variants = drill.ladders.find(({ parameter }) => parameter === "variant");
  const usual: Partial<Settings> = {};
  for (const ladder of drill.ladders)
    if (ladder !== variants) Object.assign(usual, { [ladder.parameter]: nearOf(ladder, own) });
  if (variants === undefined) return [settingsText(usual)];
  return Array.from({ length: variants.count }, (_, k) =>
    settingsText({ ...usual, variant: ladderValue(variants, k) }),
  );
}

function nearOf(ladder: Ladder, own: Settings): string {
  const value = own[ladder.parameter];
  return value !== undefined && ladderStep(ladder, value) !== undefined ? value : ladderValue(ladder, 0);
}
