import { isPreparation, rungCalled, rungs, settingsText } from "../../../drill/index.js";
import { drillStanding, rungStanding, stayVerdicts, weigh } from "../../../progress/index.js";
import type { Page, PlayedTake } from "../page.js";
import { goOnWhen } from "../view/cleanWhen.js";
import { h } from "../view/element.js";
import { mark } from "./mark.js";

/** Most takes of a stay that are shown, the latest: our choice. */
const MOST_SHOWN = 8;

/** What the takes of this rung mean for its gate: the latest ones, each as a mark and a word. */
export function gateSection({ words }: Page, { rung, submitted }: PlayedTake): HTMLElement | false {
  if (submitted === undefined || isPreparation(rung)) return false;
  const { drill } = rung;
  const held = drillStanding(submitted.standing, drill.name);
  const own = rungCalled(drill, held?.rung) ?? rung;
  const stay = held === undefined ? undefined : rungStanding(held, settingsText(own.settings));
  const verdicts = stay === undefined ? [] : stayVerdicts(stay);
  const weighed = weigh(drill.gate, verdicts.map((each) => each[0]!).join(""));
  const isTop = own.index === rungs(drill).count - 1;
  const shown = verdicts.slice(-MOST_SHOWN);
  return h(
    "section",
    { "aria-labelledby": "gate" },
    h(
      "h2",
      { id: "gate" },
      isTop ? words.say("page.gate-of-last") : words.say("page.gate-to", { number: own.index + 2 }),
    ),
    h("p", {}, words.say(isTop ? "page.complete-when" : "sheet.go-on-when"), " ", goOnWhen(drill.gate, words)),
    h("p", {}, words.say("page.gate-so-far", { clean: weighed.clean.length })),
    shown.length > 0 &&
      h(
        "ol",
        { class: "gate" },
        shown.map((verdict) => h("li", {}, mark(verdict), words.say("page.take-was", { verdict }))),
      ),
  );
}
