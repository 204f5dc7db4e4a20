import { enrol, studentNameProblems } from "../../../practice/index.js";
import { CONCERT } from "../../model.js";
import type { Page, ShowView } from "../page.js";
import type { Member } from "../school/member.js";
import { choose, type Student, students } from "../state/students.js";
import { cautions } from "../view/cautions.js";
import { choices, chosenIn } from "../view/choice.js";
import { fill, h } from "../view/element.js";
import { explanation } from "../view/explanation.js";
import { problemList } from "../view/problems.js";

/** Who plays, on what, and how the page and the student hear each other. */
export const showChoose: ShowView = async (page, { asked }) => {
  const { words, student: now } = page;
  const isNew = asked.new !== undefined || now === undefined;
  const student = isNew ? undefined : now;
  const member = isNew ? await memberToBegin(page, asked.new === "link") : undefined;
  const { readers } = await page.course();
  const problems = h("div", { role: "alert" });
  const form = h(
    "form",
    { class: "rule", "aria-labelledby": "about-you" },
    h("h2", { id: "about-you" }, words.say("page.about-you")),
    h(
      "div",
      { class: "pair" },
      h(
        "div",
        {},
        nameField(page, student?.name, member),
        courseField(page, member),
        readerField(page, readers, student),
      ),
      h("div", {}, hearing(page, student), input(page, student)),
    ),
    problems,
    cautions(words, "h3"),
    h(
      "div",
      { class: "presses" },
      h("button", { class: "go", type: "submit" }, words.say(student === undefined ? "page.begin" : "page.save")),
      student === undefined &&
        h("button", { type: "submit", value: "place", name: "then" }, words.say("page.find-my-rung")),
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const { submitter } = event as SubmitEvent;
    void begin(page, form, { problems, places: submitter?.getAttribute("value") === "place" });
  });
  const title = words.say(student === undefined ? "page.choose-title" : "page.setup-title");
  return {
    title,
    body: [h("div", { class: "head" }, h("h1", {}, title), isNew && explanation(words)), ...others(page), form],
  };
};

/** Who came in by a link of the school and has not played here yet. Whoever has, and comes by another link, goes on. */
async function memberToBegin(page: Page, isByLink: boolean): Promise<Member | undefined> {
  const member = (await page.school)?.member;
  if (member?.role !== "student") return undefined;
  const known = students().find(({ name }) => name === member.name);
  if (known !== undefined && isByLink) goOnAs(page, known);
  return known === undefined ? member : undefined;
}

function nameField({ words }: Page, known: string | undefined, member: Member | undefined): HTMLElement {
  return h(
    "div",
    { class: "field" },
    h("label", { class: "label", for: "nick" }, words.say("page.name-asked")),
    h(
      "p",
      { class: "hint", id: "nick-hint" },
      words.say(member === undefined ? "page.name-hint" : "page.school-name-hint"),
    ),
    h("input", {
      type: "text",
      id: "nick",
      name: "nick",
      value: known ?? member?.name ?? "",
      readonly: (known ?? member) !== undefined,
      autocomplete: "nickname",
      required: true,
      maxlength: 200,
      "aria-describedby": "nick-hint",
    }),
  );
}

function courseField({ words, index, listed }: Page, member: Member | undefined): HTMLElement | false {
  if (index.courses.length < 2) return false;
  const usual = member?.courses[0] ?? listed?.name;
  return h(
    "div",
    { class: "field" },
    h("label", { class: "label", for: "course" }, words.say("page.course-asked")),
    h(
      "select",
      { id: "course", name: "course" },
      index.courses.map(({ name, title }) => h("option", { value: name, selected: name === usual }, title)),
    ),
  );
}

function readerField({ words }: Page, readers: readonly string[], student: Student | undefined): HTMLElement {
  return h(
    "div",
    { class: "field" },
    h("label", { class: "label", for: "reader" }, words.say("page.reader-asked")),
    h("p", { class: "hint", id: "reader-hint" }, words.say("page.reader-hint")),
    h(
      "select",
      { id: "reader", name: "reader", "aria-describedby": "reader-hint" },
      readers.map((name) =>
        h(
          "option",
          { value: name, selected: name === student?.reader },
          name === CONCERT ? words.say("page.concert-pitch") : name,
        ),
      ),
    ),
  );
}

function hearing({ words }: Page, student: Student | undefined): HTMLElement {
  const of = (["headphones", "speakers"] as const).map((value) => ({
    value,
    label: words.say("page.hears", { by: value }),
    hint: words.say("page.hears-hint", { by: value }),
  }));
  const field = choices("hears", words.say("page.hears-asked"), { of, chosen: student?.hears ?? "headphones" });
  field.append(h("p", { class: "hint" }, words.say("page.bluetooth")));
  return field;
}

function input({ words }: Page, student: Student | undefined): HTMLElement {
  const secure = globalThis.isSecureContext && navigator.mediaDevices !== undefined;
  const of = (["microphone", "midi", "taps"] as const).map((value) => ({
    value,
    label: words.say("page.input", { by: value }),
    hint:
      value === "microphone" && !secure
        ? words.say("page.no-microphone-here")
        : words.say("page.input-hint", { by: value }),
    disabled: value === "microphone" && !secure,
  }));
  return choices("input", words.say("page.input-asked"), {
    of,
    chosen: student?.input ?? (secure ? "microphone" : "taps"),
  });
}

/** Everybody else on this device. */
function others(page: Page): Node[] {
  const all = students().filter(({ name }) => name !== page.student?.name);
  const { words } = page;
  if (all.length === 0 && page.student === undefined) return [];
  return [
    h(
      "section",
      { "aria-labelledby": "others" },
      h("h2", { id: "others" }, words.say("page.others")),
      h(
        "div",
        { class: "presses" },
        all.map((student) =>
          h(
            "button",
            { type: "button", click: () => goOnAs(page, student) },
            words.say("page.go-on-as", { student: student.name }),
          ),
        ),
        page.student !== undefined &&
          h(
            "button",
            { type: "button", click: () => page.go({ view: "choose", asked: { new: "1" } }) },
            words.say("page.somebody-new"),
          ),
      ),
    ),
  ];
}

function goOnAs(page: Page, student: Student): void {
  choose(student);
  page.go({ view: "today" });
}

async function begin(
  page: Page,
  form: HTMLFormElement,
  { problems, places }: { readonly problems: HTMLElement; readonly places: boolean },
): Promise<void> {
  const name = (chosenIn(form, "nick") ?? "").trim();
  const listed = page.index.courses.find((each) => each.name === chosenIn(form, "course")) ?? page.listed!;
  const unusable = studentNameProblems(name);
  if (unusable.length > 0) return fill(problems, problemList(unusable, page.words));
  choose({
    name,
    course: listed.name,
    reader: chosenIn(form, "reader") ?? CONCERT,
    hears: chosenIn(form, "hears") === "speakers" ? "speakers" : "headphones",
    input: inputOf(chosenIn(form, "input")),
  });
  const { course } = await page.course();
  // What the school knows of a student comes before what is begun here.
  await (await page.school)?.meet(name, course.name);
  const enrolled = await enrol(await page.store(), name, { course, at: new Date().toISOString() });
  if (!enrolled.ok) return fill(problems, problemList(enrolled.problems, page.words));
  const first = course.drills[0]!.name;
  page.go(places ? { view: "drill", drill: first, asked: { place: "1" } } : { view: "today" });
}

function inputOf(said: string | undefined): Student["input"] {
  return said === "taps" || said === "midi" ? said : "microphone";
}
