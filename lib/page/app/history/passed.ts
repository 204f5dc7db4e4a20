import type { Curriculum } from "../../../curriculum/index.js";
import { rungCalled } from "../../../drill/index.js";
import type { JournalEvent } from "../../../schema/index.js";
import type { Page } from "../page.js";
import { h } from "../view/element.js";
import { drillTitle, settingsLine } from "../view/rungWords.js";

/** Most rungs listed, the latest ones: our choice. */
const MOST = 30;

/** The rungs a student has passed, the latest first. */
export function passedList({ words }: Page, course: Curriculum, events: readonly JournalEvent[]): HTMLElement | false {
  const passed = events.filter((event) => event.kind === "advanced" || event.kind === "drill completed").reverse();
  if (passed.length === 0) return false;
  return h(
    "section",
    { "aria-labelledby": "passed" },
    h("h2", { id: "passed" }, words.say("page.rungs-passed")),
    h(
      "ol",
      { class: "rungs", reversed: true },
      passed.slice(0, MOST).map((event) => {
        const drill = course.drills.find(({ name }) => name === event.drill);
        const settings = event.from;
        const rung = rungCalled(drill, settings);
        const text = drill === undefined ? event.drill : drillTitle(drill);
        const line =
          rung === undefined
            ? settings
            : words.say("page.rung-with", { number: rung.index + 1, settings: settingsLine(rung, words) });
        return h(
          "li",
          {},
          h("span", { class: "closed" }, h("span", {}, `${text}: ${line}`), h("span", {}, event.at.slice(0, 10))),
        );
      }),
    ),
  );
}
