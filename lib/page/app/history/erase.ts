import { isStoreProblem } from "../../../store/index.js";
import { COPIES } from "../keptLine.js";
import type { Page } from "../page.js";
import { forget, keep, recall } from "../state/students.js";
import { fill, h } from "../view/element.js";
import { problemList } from "../view/problems.js";

/** The end of a journal on this device, asked for twice. */
export function eraseSection(page: Page): HTMLElement {
  const { words } = page;
  const { name } = page.student!;
  const answer = h("div", { role: "alert" });
  return h(
    "details",
    {},
    h("summary", {}, words.say("page.erase")),
    h("p", {}, words.say("page.erase-is", { student: name })),
    page.school !== undefined && h("p", {}, words.say("page.school-erase")),
    h(
      "div",
      { class: "presses" },
      h(
        "button",
        { type: "button", id: "erase", click: () => void erase(page, name, answer) },
        words.say("page.erase-all-of", { student: name }),
      ),
    ),
    answer,
  );
}

async function erase(page: Page, name: string, answer: HTMLElement): Promise<void> {
  try {
    await (await page.store()).erase(name);
  } catch (error) {
    if (!isStoreProblem(error)) throw error;
    return fill(answer, problemList([error.problem], page.words));
  }
  await (await page.school)?.forget({ student: name });
  const { [name]: _, ...copies } = recall<Record<string, string>>(COPIES) ?? {};
  keep(COPIES, copies);
  forget(name);
  page.go({ view: "choose" });
}
