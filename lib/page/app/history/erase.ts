import { isStoreProblem } from "../../../store/index.js";
import { COPIES } from "../keptLine.js";
import type { Page } from "../page.js";
import { forget, keep, recall } from "../state/students.js";
import { fill, h } from "../view/element.js";
import { problemList } from "../view/problems.js";
import { eraseAtSchool } from "./eraseAtSchool.js";

/** The end of a journal on this device, asked for twice; and at the school, by the student whose browser this is. */
export async function eraseSection(page: Page): Promise<HTMLElement> {
  const { words } = page;
  const { name } = page.student!;
  const answer = h("div", { role: "alert" });
  const member = (await page.school)?.member;
  const isOwn = member?.role === "student" && member.name === name;
  const eraseHere = (): Promise<boolean> => erase(page, name, answer);
  return h(
    "details",
    {},
    h("summary", {}, words.say("page.erase")),
    h("p", {}, words.say("page.erase-is", { student: name })),
    page.school !== undefined && !isOwn && h("p", {}, words.say("page.school-erase")),
    h(
      "div",
      { class: "presses" },
      h(
        "button",
        {
          type: "button",
          id: "erase",
          click: () => void eraseHere().then((done) => done && page.go({ view: "choose" })),
        },
        words.say("page.erase-all-of", { student: name }),
      ),
    ),
    answer,
    isOwn && eraseAtSchool(page, name, eraseHere),
  );
}

/** Erases on this device; false, having said why, when that could not be done. */
async function erase(page: Page, name: string, answer: HTMLElement): Promise<boolean> {
  try {
    await (await page.store()).erase(name);
  } catch (error) {
    if (!isStoreProblem(error)) throw error;
    fill(answer, problemList([error.problem], page.words));
    return false;
  }
  await (await page.school)?.forget({ student: name });
  const { [name]: _, ...copies } = recall<Record<string, string>>(COPIES) ?? {};
  keep(COPIES, copies);
  forget(name);
  return true;
}
