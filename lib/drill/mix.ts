import type { Does, Drill, Mix, Settings } from "./model.js";
import { parsePartsInTake } from "./partsInTake.js";

/**
 * The default mix of a rung: the mix its settings name, else the drill's first.
 *
 * @example
 * usualMix(drill, rung.settings).name === drill.mixes[0].name // true
 */
export function usualMix(drill: Drill, settings: Settings): Mix {
  return drill.mixes.find((mix) => mix.name === settings.mix) ?? drill.mixes[0]!;
}

/**
 * What each part does in a mix at these settings, in the order of the pattern.
 *
 * A part of the accompaniment that the mix does not name, or names "drops", drops when it is among the rung's dropping parts and plays
 * otherwise; it drops when it does so in any phrase of the take. The student's part is off when the mix does not name it. Without a dropout no part drops.
 */
export function doesIn(drill: Drill, mix: Mix, settings: Settings): ReadonlyMap<string, Does> {
  const dropping = settings.parts === undefined ? undefined : parsePartsInTake(settings.parts).sets.flat();
  const whenAccompanying = (name: string): Does =>
    dropping === undefined || dropping.includes(name) ? "drops" : "plays";
  const doesOf = (name: string): Does => {
    const said = Object.hasOwn(mix.parts, name) ? mix.parts[name] : undefined;
    if (name === drill.student) return said ?? "off";
    return said === "off" || said === "plays" ? said : whenAccompanying(name);
  };
  const withSilences = (does: Does): Does => (does === "drops" && settings.dropout === undefined ? "plays" : does);
  return new Map(drill.pattern.parts.map(({ name }) => [name, withSilences(doesOf(name))]));
}
