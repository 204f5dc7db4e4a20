import { fill, h } from "../../app/view/element.js";
import { ask, at } from "../../school/ask.js";
import type { InvitationShown, Me } from "../../school/model.js";
import { dateText } from "../date.js";
import type { ClassPage, ClassView } from "../page.js";
import { PRACTICE, refusalText, refusedView } from "../states.js";
import { endedView, endOf } from "./ended.js";

/** What an invitation is to, what the school keeps, and the way in: in that order. */
export async function showJoin(page: ClassPage, { secret }: { readonly secret: string }): Promise<ClassView> {
  const shown = await ask<InvitationShown>(at("invitations", "show"), { method: "POST", body: { secret } });
  if (shown.ok) return invitedView(page, secret, shown.value);
  const end = endOf(shown.refusal);
  return end === undefined ? refusedView(page, shown.refusal) : endedView(page, end);
}

function invitedView(page: ClassPage, secret: string, invitation: InvitationShown): ClassView {
  const { words, me } = page;
  const { role, course, consent, name, until } = invitation;
  const title = words.say("school.invited", { class: invitation.class });
  const answer = h("div", { role: "alert" });
  const form = h(
    "form",
    { class: "rule", "aria-labelledby": "who" },
    h("h2", { id: "who" }, words.say("school.who")),
    name === undefined ? nameField(page) : h("p", {}, words.say("school.named", { name })),
    me !== undefined && otherHere(page, me),
    answer,
    h("div", { class: "presses" }, h("button", { class: "go", type: "submit" }, words.say("school.come-in"))),
    h("p", { class: "small" }, words.say("school.valid-until", { date: dateText(until, words) })),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const chosen = name ?? `${new FormData(form).get("name") ?? ""}`.trim();
    void comeIn(page, { secret, name: chosen }, answer);
  });
  return {
    title,
    body: [
      h(
        "div",
        { class: "head" },
        h("h1", {}, title),
        h("p", { class: "lead" }, words.say("school.invited-to", { role, course })),
      ),
      h(
        "section",
        { class: "caution", "aria-labelledby": "consent" },
        h("h2", { id: "consent" }, words.say("school.consent")),
        consent.split(/\n\s*\n/).map((text) => h("p", {}, text.trim())),
      ),
      form,
    ],
  };
}

function nameField({ words }: ClassPage): HTMLElement {
  return h(
    "div",
    { class: "field" },
    h("label", { class: "label", for: "name" }, words.say("school.name-asked")),
    h("p", { class: "hint", id: "name-hint" }, words.say("school.name-hint")),
    h("input", {
      type: "text",
      id: "name",
      name: "name",
      autocomplete: "nickname",
      required: true,
      maxlength: 200,
      "aria-describedby": "name-hint",
    }),
  );
}

/** Somebody else's session ends when one comes in: a teacher who tries the link of a student is told so before. */
function otherHere({ words }: ClassPage, { name }: Me): HTMLElement {
  return h(
    "div",
    { class: "caution" },
    h("p", {}, words.say("school.other-here", { name })),
    h("p", {}, words.say("school.link-is-for-handing-out")),
  );
}

async function comeIn(
  page: ClassPage,
  { secret, name }: { readonly secret: string; readonly name: string },
  answer: HTMLElement,
): Promise<void> {
  const came = await ask<Pick<Me, "name" | "role">>(at("invitations", "accept"), {
    method: "POST",
    body: { secret, name, as: "session" },
  });
  // The link was used or taken back meanwhile: its own view says so.
  if (!came.ok && endOf(came.refusal) !== undefined) page.again();
  else if (!came.ok) fill(answer, refusalText(page.words, came.refusal));
  else if (came.value.role === "teacher") page.go({ view: "classes" });
  else location.assign(`${PRACTICE}#/choose?new=link`);
}
