import { drillCalled } from "../../../curriculum/index.js";
import { rungCalled, rungs } from "../../../drill/index.js";
import { fill, h } from "../../app/view/element.js";
import { drillTitle, rungLine } from "../../app/view/rungWords.js";
import { ask, at } from "../../school/ask.js";
import type { SchoolClass } from "../../school/model.js";
import { numberField, selectField } from "../fields.js";
import type { ClassPage } from "../page.js";
import { refusalText } from "../states.js";
import type { StudentRecord } from "./record.js";

/** Puts a student on a rung, with a reason: the teacher's wish, on the standing that the teacher saw. */
export function setRungForm(page: ClassPage, of: SchoolClass, record: StudentRecord): Node[] {
  const { words } = page;
  const { course, standing } = record;
  const isOpen = (name: string): boolean =>
    standing.drills.some(({ drill, state }) => drill === name && state === "open");
  const drills = [...course.drills].sort((a, b) => Number(isOpen(b.name)) - Number(isOpen(a.name)));
  const answer = h("div", { role: "alert" });
  const rungPart = h("div", {});
  const told = h("p", { class: "hint", role: "status" });
  const drillOf = (name: string): (typeof drills)[number] => drillCalled(course, name)!;
  const showDrill = (name: string): void => {
    const drill = drillOf(name);
    const { count } = rungs(drill);
    const held = standing.drills.find((each) => each.drill === name)?.rung;
    const value = (rungCalled(drill, held)?.index ?? 0) + 1;
    fill(
      rungPart,
      numberField("rung", words.say("school.rung"), {
        hint: words.say("school.rung-hint", { count }),
        value,
        most: count,
      }),
    );
    const field = rungPart.querySelector("input")!;
    const tell = (): void => {
      const number = Number(field.value);
      const isThere = Number.isInteger(number) && number >= 1 && number <= count;
      told.textContent = isThere ? rungLine(rungs(drill).at(number - 1), words) : "";
    };
    field.addEventListener("input", tell);
    tell();
  };
  const form = h(
    "form",
    {},
    h("p", {}, words.say("school.set-rung-is")),
    selectField(
      "drill",
      words.say("school.drill"),
      drills.map((drill) => ({ value: drill.name, label: drillTitle(drill) })),
      showDrill,
    ),
    rungPart,
    told,
    h(
      "div",
      { class: "field" },
      h("label", { class: "label", for: "reason" }, words.say("school.reason")),
      h("p", { class: "hint", id: "reason-hint" }, words.say("school.reason-hint")),
      h("textarea", {
        id: "reason",
        name: "reason",
        rows: 3,
        maxlength: 2000,
        required: true,
        class: "prose",
        "aria-describedby": "reason-hint",
      }),
    ),
    answer,
    h("div", { class: "presses" }, h("button", { class: "go", type: "submit" }, words.say("school.set-it"))),
  );
  showDrill(drills[0]!.name);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void set(page, of, { form, answer, record });
  });
  return [form];
}

interface Setting {
  readonly form: HTMLFormElement;
  readonly answer: HTMLElement;
  readonly record: StudentRecord;
}

async function set(page: ClassPage, of: SchoolClass, { form, answer, record }: Setting): Promise<void> {
  const { words } = page;
  const { student, tag, course } = record;
  const said = (name: string): string => `${new FormData(form).get(name) ?? ""}`.trim();
  const body = { drill: said("drill"), rung: said("rung"), reason: said("reason") };
  const path = at("students", student.name, "courses", of.course, "rung");
  const sent = await ask(path, { method: "POST", body, match: tag });
  if (sent.ok) {
    const drill = drillTitle(drillCalled(course, body.drill)!);
    page.again();
    page.announce(words.say("school.was-set", { student: student.name, number: body.rung, drill }));
  } else if (sent.refusal.code === "STANDING_CHANGED")
    fill(
      answer,
      h("p", {}, words.say("school.moved-meanwhile", { student: student.name })),
      h("button", { type: "button", click: () => page.again() }, words.say("school.look-again")),
    );
  else fill(answer, refusalText(words, sent.refusal));
}
