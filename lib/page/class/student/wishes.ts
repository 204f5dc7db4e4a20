import { drillCalled } from "../../../curriculum/index.js";
import { rungCalled } from "../../../drill/index.js";
import { h } from "../../app/view/element.js";
import { drillTitle } from "../../app/view/rungWords.js";
import { dateText } from "../date.js";
import type { ClassPage } from "../page.js";
import type { StudentRecord } from "./record.js";

/** What teachers set, each with its reason: wishes, which stand apart from what the student showed. */
export function wishesSection({ words }: ClassPage, { events, own }: StudentRecord): HTMLElement | false {
  const wishes = events
    .flatMap((event) => (event.kind === "set by teacher" && event.by === undefined ? [event] : []))
    .reverse();
  if (wishes.length === 0) return false;
  return h(
    "section",
    { "aria-labelledby": "wishes" },
    h("h2", { id: "wishes" }, words.say("school.wishes")),
    h(
      "ul",
      { class: "steps" },
      wishes.map(({ at, teacher = "", drill: name, to, because: reason = "" }) => {
        const drill = drillCalled(own, name);
        const rung = rungCalled(drill, to);
        return h(
          "li",
          {},
          words.say("school.set-by", {
            date: dateText(at, words),
            teacher,
            drill: drill === undefined ? name : drillTitle(drill),
            rung: rung === undefined ? to : `${rung.index + 1}`,
            reason,
          }),
        );
      }),
    ),
  );
}
