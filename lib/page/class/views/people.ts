import { fill, h } from "../../app/view/element.js";
import { ask, at } from "../../school/ask.js";
import type { Listed, ListedInvitation, ListedStudent } from "../../school/model.js";
import { dateText } from "../date.js";
import { numberField, selectField, textField } from "../fields.js";
import { type ClassPage, type ClassView, courseTitle } from "../page.js";
import { handOut, type MadeLink } from "../people/handOut.js";
import { type Place, placeText } from "../route.js";
import { refusalText, refusedView } from "../states.js";

type Asked = Extract<Place, { readonly view: "people" }>;

/** Days a link works unless the teacher says otherwise, and at most: those of the school's server. */
const USUAL_DAYS = 14;
const MOST_DAYS = 90;

/** Who is in a class, and the links by which people come in. */
export async function showPeople(page: ClassPage, { of: name, after }: Asked): Promise<ClassView> {
  const { words } = page;
  const query = after === undefined ? "" : `?after=${encodeURIComponent(after)}`;
  const [invited, listed] = await Promise.all([
    ask<Listed<ListedInvitation>>(at("classes", name, "invitations")),
    ask<Listed<ListedStudent>>(`${at("classes", name, "students")}${query}`),
  ]);
  if (!invited.ok) return refusedView(page, invited.refusal);
  if (!listed.ok) return refusedView(page, listed.refusal);
  const of = page.me!.classes.find((each) => each.name === name)!;
  const open = h("section", { "aria-labelledby": "open" });
  fill(open, openLinks(page, name, invited.value.items));
  const title = words.say("school.people");
  return {
    title: `${title}, ${name}`,
    of,
    body: [
      h(
        "div",
        { class: "head" },
        h("h1", {}, title),
        h("p", { class: "lead" }, [...new Set([name, courseTitle(page, of.course)])].join(": ")),
      ),
      h(
        "div",
        { class: "two level" },
        h("div", { class: "body" }, students(page, name, listed.value)),
        h("div", { class: "side" }, inviteForm(page, name, open), open),
      ),
    ],
  };
}

function inviteForm(page: ClassPage, of: string, open: HTMLElement): HTMLFormElement {
  const { words } = page;
  const answer = h("div", { role: "status" });
  const form = h(
    "form",
    { "aria-labelledby": "invite" },
    h("h2", { id: "invite" }, words.say("school.invite")),
    h("p", {}, words.say("school.invite-is")),
    textField("name", words.say("school.invite-name"), { hint: words.say("school.invite-name-hint") }),
    selectField(
      "role",
      words.say("school.invite-role"),
      (["student", "teacher"] as const).map((role) => ({ value: role, label: words.say("school.role", { role }) })),
    ),
    numberField("days", words.say("school.invite-days"), { value: USUAL_DAYS, most: MOST_DAYS }),
    h("div", { class: "presses" }, h("button", { class: "go", type: "submit" }, words.say("school.make-link"))),
    answer,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void invite(page, of, { form, answer, open });
  });
  return form;
}

interface Inviting {
  readonly form: HTMLFormElement;
  readonly answer: HTMLElement;
  readonly open: HTMLElement;
}

async function invite(page: ClassPage, of: string, { form, answer, open }: Inviting): Promise<void> {
  const said = new FormData(form);
  const name = `${said.get("name") ?? ""}`.trim();
  const body = { role: said.get("role"), days: Number(said.get("days")), ...(name === "" ? {} : { name }) };
  // A link made before is of somebody else: none stands there until the new one has come.
  fill(answer);
  const made = await ask<MadeLink>(at("classes", of, "invitations"), { method: "POST", body });
  if (!made.ok) return fill(answer, refusalText(page.words, made.refusal));
  fill(answer, handOut(page, made.value));
  answer.querySelector("input")?.select();
  const listed = await ask<Listed<ListedInvitation>>(at("classes", of, "invitations"));
  if (listed.ok) fill(open, openLinks(page, of, listed.value.items));
}

/** Links that let somebody in still; they cannot be shown again, but taken back. */
function openLinks(page: ClassPage, of: string, items: readonly ListedInvitation[]): Node[] {
  const { words } = page;
  const heading = h("h2", { id: "open" }, words.say("school.open-links"));
  if (items.length === 0) return [heading, h("p", {}, words.say("school.no-open-links"))];
  const item = (each: ListedInvitation): HTMLElement => {
    const { name = "", role, until, id } = each;
    const text = words.say("school.open-link", {
      for: name === "" ? "anybody" : "somebody",
      role,
      name,
      date: dateText(until, words),
    });
    const line = h("li", {}, h("p", { id: `link-${id}` }, text));
    const takeBack = async (): Promise<void> => {
      const gone = await ask(at("classes", of, "invitations", id), { method: "DELETE" });
      // One that is not there any more was used or taken back meanwhile: either way it is no link that is open.
      if (gone.ok || gone.refusal.status === 404) {
        line.remove();
        page.announce(words.say("school.taken-back"));
      } else line.append(refusalText(words, gone.refusal));
    };
    line.append(
      h(
        "button",
        { type: "button", class: "quiet", "aria-describedby": `link-${id}`, click: () => void takeBack() },
        name === "" ? words.say("school.take-back") : words.say("school.take-back-named", { name }),
      ),
    );
    return line;
  };
  return [heading, h("ul", { class: "register" }, items.map(item))];
}

function students({ words }: ClassPage, of: string, { items, next }: Listed<ListedStudent>): HTMLElement {
  const item = ({ name, since, seen, paused, erasedFrom }: ListedStudent): HTMLElement =>
    h(
      "li",
      {},
      h("h3", {}, h("a", { href: placeText({ view: "student", of, student: name }) }, name)),
      h(
        "p",
        { class: "small" },
        words.say("school.since-and-seen", {
          since: words.say("school.since", { date: dateText(since, words) }),
          seen: words.say("school.last-seen", { date: dateText(seen, words) }),
        }),
        paused !== undefined && ` · ${words.say("school.is-away", { date: dateText(paused, words) })}`,
        erasedFrom !== undefined &&
          h("strong", { class: "line" }, words.say("school.is-erased", { date: dateText(erasedFrom, words) })),
      ),
    );
  return h(
    "section",
    { "aria-labelledby": "students" },
    h("h2", { id: "students" }, words.say("school.students")),
    items.length === 0
      ? h("p", {}, words.say("school.sentence", { text: words.say("school.empty") }))
      : h("ul", { class: "register" }, items.map(item)),
    next !== undefined &&
      h("a", { class: "button", href: placeText({ view: "people", of, after: next }) }, words.say("school.further")),
  );
}
