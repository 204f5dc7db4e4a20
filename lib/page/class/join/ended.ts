import { h } from "../../app/view/element.js";
import type { Refusal } from "../../school/ask.js";
import type { ClassPage, ClassView } from "../page.js";
import { placeText } from "../route.js";
import { toPractice } from "../states.js";

export type LinkEnd = "used" | "revoked" | "late" | "unknown";

/** Causes by the codes of the school; a secret that is too short for one is not whole. */
const ENDS: Readonly<Record<string, LinkEnd>> = {
  INVITATION_USED: "used",
  INVITATION_REVOKED: "revoked",
  INVITATION_LATE: "late",
  INVITATION_UNKNOWN: "unknown",
};

/** Why a link lets nobody in; `undefined` when it was refused for another reason. */
export function endOf({ status, code, problems }: Refusal): LinkEnd | undefined {
  if (status === 422 && problems.some(({ where }) => where.pointer === "/secret")) return "unknown";
  return ENDS[code];
}

/** A link that lets nobody in (any more): why, and what to do. Whoever is in already goes on from here. */
export function endedView({ words, me }: ClassPage, how: LinkEnd): ClassView {
  const title =
    me === undefined ? words.say("school.ended", { how }) : words.say("school.already-here", { name: me.name });
  return {
    title,
    body: [
      h("h1", {}, title),
      me !== undefined &&
        h("p", { class: "lead" }, words.say("school.sentence", { text: words.say("school.ended", { how }) })),
      h("p", { class: me === undefined ? "lead" : "small" }, words.say("school.ended-is", { how })),
      me === undefined && h("p", {}, words.say("school.ask-for-new")),
      me?.role === "teacher" &&
        h(
          "div",
          { class: "presses" },
          h("a", { class: "button go", href: placeText({ view: "classes" }) }, words.say("school.go-to-classes")),
        ),
      me?.role === "student" && toPractice(words),
    ].filter((each) => each !== false),
  };
}
