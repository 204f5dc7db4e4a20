import { type Rung, rungs } from "../../../drill/index.js";
import type { Words } from "../../../words/index.js";
import { h } from "./element.js";

/** What a take must keep to be clean, what leads on, and what leads back. */
export function cleanWhen({ drill, index }: Rung, words: Words): Node[] {
  const { drift, landing, steadiness, played } = drill.tolerance;
  const said = [
    drift !== undefined && "percent" in drift && words.say("sheet.drift-percent", { most: drift.percent }),
    drift !== undefined && "ms" in drift && words.say("sheet.drift-ms", { most: drift.ms }),
    landing !== undefined && words.say("sheet.landing", { most: landing }),
    played !== undefined && words.say("sheet.played", { share: `${played.n}/${played.d}` }),
    steadiness !== undefined && words.say("sheet.steadiness", { most: steadiness }),
  ].filter((each) => each !== false);
  const lines = said.map((condition, i) =>
    words.say("sheet.condition", { place: i === said.length - 1 ? "last" : "before", condition }),
  );
  const { goBack } = drill;
  const isTop = index === rungs(drill).count - 1;
  return [
    h(
      "ul",
      { class: "steps" },
      lines.map((each) => h("li", {}, each)),
    ),
    h("h3", {}, words.say(isTop ? "page.complete-when" : "sheet.go-on-when")),
    h("p", {}, goOnWhen(drill.gate, words)),
    goBack !== undefined &&
      index > 0 &&
      h("p", { class: "small" }, words.say("sheet.go-back", { after: goBack.after, by: goBack.by })),
    h("p", { class: "small" }, words.say("sheet.unclear")),
  ].filter((each) => each !== false);
}

/** What a gate asks to be shown, as the end of "You go on when". */
export function goOnWhen(gate: Rung["drill"]["gate"], words: Words): string {
  switch (gate.kind) {
    case "clean of last":
      return words.say("sheet.clean-of-last", { clean: gate.clean, of: gate.of });
    case "in a row":
      return words.say("sheet.in-a-row", { count: gate.count });
    case "sequential":
      return words.say("page.gate-showing", { percent: Math.round(gate.able * 100) });
  }
}
