import type { Problem } from "../../../base/index.js";
import { type Curriculum, readCurriculum } from "../../../curriculum/index.js";
import { loadWords, type Words } from "../../../words/index.js";
import type { ShowView } from "../page.js";
import { keep, recall, storage } from "../state/students.js";
import { preview } from "../teach/preview.js";
import { savePage } from "../teach/savePage.js";
import { fill, h } from "../view/element.js";
import { problemList } from "../view/problems.js";
import { saveFile } from "../view/saveFile.js";

const PLACE = "leeway.course";
/** How long after the last key a course is read: our choice, so that reading does not hold up writing. */
const PAUSE_MS = 400;
/** Longest course read here, characters: our choice; the command line takes longer ones. */
const LONGEST = 400_000;

/** A course written or opened here: what is wrong with it and where, each rung to see and hear, and the course to save. */
export const showTeacher: ShowView = async (page) => {
  const { words } = page;
  const whole = await withProblems(words);
  const text = h("textarea", {
    id: "course-text",
    rows: 16,
    spellcheck: "false",
    autocapitalize: "off",
    "aria-describedby": "course-hint",
  });
  text.value = recall<string>(PLACE, storage("sessionStorage")) ?? "";
  const file = h("input", { type: "file", id: "course-file", accept: ".yaml,.yml" });
  const answer = h("div", { role: "status", id: "course-answer" });
  const shown = h("div", {});
  const saving = h("div", { class: "presses" });
  let leavePreview = (): void => undefined;

  const read = async (): Promise<void> => {
    keep(PLACE, text.value, storage("sessionStorage"));
    leavePreview();
    leavePreview = () => undefined;
    fill(shown);
    fill(saving);
    if (text.value.trim() === "") return fill(answer);
    const found =
      text.value.length > LONGEST
        ? undefined
        : readCurriculum(text.value, { file: "course.yaml", readFile: () => undefined });
    if (found === undefined) return fill(answer, h("p", {}, words.say("page.course-too-long", { most: LONGEST })));
    const problems: readonly Problem[] = found.ok ? found.advice : found.problems;
    const count = problems.length;
    const said = !found.ok
      ? words.say("page.course-problems", { count })
      : count === 0
        ? words.say("page.course-fine")
        : words.say("page.course-advice", { count });
    fill(answer, h("p", {}, said), problems.length > 0 && problemList(problems, whole));
    if (!found.ok) return;
    fill(saving, savingButtons(found.value));
    const seen = await preview(page, found.value);
    leavePreview = seen.leave;
    fill(shown, seen.element);
  };
  const savingButtons = (course: Curriculum): Node[] => [
    h(
      "button",
      { type: "button", id: "save-yaml", click: () => saveFile(`${course.name}.yaml`, text.value, "application/yaml") },
      words.say("page.save-yaml"),
    ),
    h(
      "button",
      { type: "button", id: "save-page", click: () => void savePage(page, course) },
      words.say("page.save-page"),
    ),
  ];
  let waiting: ReturnType<typeof setTimeout> | undefined;
  text.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => void read(), PAUSE_MS);
  });
  file.addEventListener("change", async () => {
    const chosen = file.files?.[0];
    if (chosen === undefined) return;
    text.value = await chosen.text();
    await read();
  });
  await read();
  const title = words.say("page.teacher");
  return {
    title,
    body: [
      h("div", { class: "head" }, h("h1", {}, title), h("p", { class: "lead" }, words.say("page.teacher-lead"))),
      h(
        "div",
        { class: "two level" },
        h(
          "div",
          { class: "body" },
          h(
            "div",
            { class: "field" },
            h("label", { class: "label", for: "course-file" }, words.say("page.open-course")),
            file,
          ),
          h(
            "div",
            { class: "field" },
            h("label", { class: "label", for: "course-text" }, words.say("page.course-text")),
            h("p", { class: "hint", id: "course-hint" }, words.say("page.course-hint")),
            text,
          ),
          saving,
        ),
        h("div", { class: "side" }, answer),
        h("div", { class: "body" }, shown),
      ),
    ],
    leave: () => {
      clearTimeout(waiting);
      leavePreview();
    },
  };
};

/** The words of a page's language with those of problems; without them where they are not at hand, as in a page in one file. */
async function withProblems(words: Words): Promise<Words> {
  if (words.language === "en") return words;
  const loaded = await loadWords(words.language).catch(() => undefined);
  return loaded?.ok ? loaded.value : words;
}
