import { fill, h } from "../../app/view/element.js";
import { saveFile } from "../../app/view/saveFile.js";
import { type Asked, ask, at } from "../../school/ask.js";
import type { EditionEffect, SchoolClass } from "../../school/model.js";
import type { ClassPage } from "../page.js";
import { refusalText } from "../states.js";
import { eraseSection } from "./erase.js";
import type { StudentRecord } from "./record.js";
import { setRungForm } from "./setRung.js";

/** What a teacher can do about a student, each under its own heading. */
export function changes(page: ClassPage, of: SchoolClass, record: StudentRecord): Node[] {
  const { words } = page;
  return [
    h("h2", {}, words.say("school.change")),
    editionSection(page, of, record),
    part(words.say("school.set-rung"), setRungForm(page, of, record)),
    part(words.say("school.pause"), pauseSection(page, record)),
    part(words.say("school.journal"), journalSection(page, record)),
    part(words.say("school.leave-class"), leaveSection(page, of, record)),
    part(words.say("school.erase"), eraseSection(page, of, record.student.name)),
  ].filter((each) => each !== false);
}

function part(title: string, content: readonly Node[]): HTMLElement {
  return h("details", { class: "part" }, h("summary", {}, title), content);
}

/** A button that asks the school for a change, and says below itself why it was not made. */
function pressToAsk(
  page: ClassPage,
  text: string,
  does: { readonly send: () => Promise<Asked<unknown>>; readonly then: () => void },
): Node[] {
  const answer = h("div", { role: "alert" });
  const press = async (): Promise<void> => {
    const sent = await does.send();
    if (sent.ok) does.then();
    else fill(answer, refusalText(page.words, sent.refusal));
  };
  return [h("div", { class: "presses" }, h("button", { type: "button", click: () => void press() }, text)), answer];
}

/** What a new edition would do, seen before it is done. */
function editionSection(
  page: ClassPage,
  of: SchoolClass,
  { student, effect, tag, course }: StudentRecord,
): HTMLElement | false {
  const { words } = page;
  const { from, to, isAffected, drills } = effect;
  if (from === to) return false;
  const titleOf = (name: string): string => course.drills.find((each) => each.name === name)?.title ?? name;
  const line = ({ drill, now, outcome, rungNow, lost }: EditionEffect["drills"][number]): HTMLElement => {
    const called = outcome === "moves back" ? "moves-back" : outcome;
    return h(
      "li",
      {},
      words.say("school.edition-drill", { outcome: called, drill: titleOf(now ?? drill), rung: rungNow ?? "" }),
      lost.takes > 0 && `; ${words.say("school.edition-lost", { takes: lost.takes })}`,
    );
  };
  return h(
    "section",
    { class: "caution", "aria-labelledby": "edition" },
    h("h3", { id: "edition" }, words.say("school.edition")),
    h("p", {}, words.say("school.edition-is", { from, to, student: student.name })),
    isAffected ? h("ul", { class: "steps" }, drills.map(line)) : h("p", {}, words.say("school.edition-nothing")),
    pressToAsk(page, words.say("school.edition-go", { to }), {
      send: () => ask(at("students", student.name, "courses", of.course, "edition"), { method: "POST", match: tag }),
      then: () => {
        page.again();
        page.announce(words.say("school.edition-gone", { student: student.name, to }));
      },
    }),
  );
}

function pauseSection(page: ClassPage, { student: { name: student, paused } }: StudentRecord): Node[] {
  const { words } = page;
  const isAway = paused !== undefined;
  return [
    h("p", {}, words.say("school.pause-is")),
    ...pressToAsk(page, words.say(isAway ? "school.pause-end" : "school.pause-begin", { student }), {
      send: () => ask(at("students", student, "pause"), { method: "PUT", body: { paused: !isAway } }),
      then: () => {
        page.again();
        page.announce(words.say(isAway ? "school.unpaused" : "school.paused", { student }));
      },
    }),
  ];
}

function journalSection({ words }: ClassPage, { student, events }: StudentRecord): Node[] {
  const save = (): void => {
    const text = events.map((event) => `${JSON.stringify(event)}\n`).join("");
    saveFile(`${student.name.replaceAll(/[^\p{L}\p{N}_-]+/gu, "-")}.jsonl`, text, "application/jsonl");
  };
  return [
    h("p", {}, words.say("school.journal-is")),
    h("div", { class: "presses" }, h("button", { type: "button", click: save }, words.say("school.save-journal"))),
  ];
}

function leaveSection(page: ClassPage, { name }: SchoolClass, { student: { name: student } }: StudentRecord): Node[] {
  const { words } = page;
  return [
    h("p", {}, words.say("school.leave-class-is", { student, class: name })),
    ...pressToAsk(page, words.say("school.leave-class-do", { student, class: name }), {
      send: () => ask(at("classes", name, "students", student), { method: "DELETE" }),
      then: () => page.go({ view: "people", of: name }),
    }),
  ];
}
