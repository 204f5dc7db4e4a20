import { type Rung, rungNumber, rungs } from "../../../drill/index.js";
import type { Words } from "../../../words/index.js";

/** "Rung 1 of 6 · silence 1 bar · tempo 76 · plain". */
export function rungLine(rung: Rung, words: Words): string {
  const number = words.say("page.rung-of", { number: rungNumber(rung), count: rungs(rung.drill).count });
  return [number, settingsLine(rung, words)].filter((part) => part !== "").join(" · ");
}

/** What a rung sets: "tempo 76 · plain". Only what climbs, as the drill's title has the rest. */
export function settingsLine({ drill, settings }: Rung, words: Words): string {
  return drill.ladders
    .map(({ parameter }) => {
      const value = settings[parameter] ?? "";
      return parameter === "variant" ? value : words.say("setting.one", { parameter, name: parameter, value });
    })
    .join(" · ");
}

/** The title of a drill. */
export function drillTitle({ title, name }: Rung["drill"]): string {
  return title ?? name;
}
