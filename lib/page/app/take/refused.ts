import { type Failure, failure } from "../../../base/index.js";
import { isStoreProblem } from "../../../store/index.js";
import type { Page, PlayedTake } from "../page.js";
import { fill, h } from "../view/element.js";
import { problemList } from "../view/problems.js";
import { saveFile } from "../view/saveFile.js";

/** A take that the store refused: it is held, can be kept once more, and saved as a file that `leeway submit` takes. */
export function refusedSection(page: Page, played: PlayedTake): HTMLElement | false {
  const { refused, again, take } = played;
  if (refused === undefined || again === undefined) return false;
  const { words } = page;
  const problems = h("div", { role: "alert" }, problemList([refused], words));
  const tryAgain = async (): Promise<void> => {
    const submitted = await again().catch(refusedAgain);
    if (submitted.ok) {
      const { refused: _, again: __, ...rest } = played;
      page.played.current = { ...rest, submitted: submitted.value };
      page.go({ view: "take" });
    } else fill(problems, problemList(submitted.problems, words));
  };
  return h(
    "section",
    { class: "side first" },
    h("h2", {}, words.say("page.not-kept-yet")),
    problems,
    h("p", {}, words.say("page.take-is-held")),
    h(
      "div",
      { class: "presses" },
      h("button", { type: "button", class: "go", click: () => void tryAgain() }, words.say("page.try-again")),
      h(
        "button",
        { type: "button", click: () => saveFile("take.json", JSON.stringify(take), "application/json") },
        words.say("page.save-take"),
      ),
    ),
  );
}

/** A store that still cannot is told of anew, so that whoever pressed sees that it was tried. */
function refusedAgain(error: unknown): Failure {
  if (!isStoreProblem(error)) throw error;
  return failure(error.problem);
}
