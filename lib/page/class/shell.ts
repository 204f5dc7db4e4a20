import { languageNotes, type Words } from "../../words/index.js";
import { h } from "../app/view/element.js";
import { type Framed, placeLink, sign } from "../app/view/frame.js";
import { ask, at } from "../school/ask.js";
import type { ClassPage, ClassView } from "./page.js";
import { type Place, placeText } from "./route.js";
import { PRACTICE } from "./states.js";

interface Shown {
  /** Absent: the school was not reached. */
  readonly page: ClassPage | undefined;
  readonly place: Place;
  readonly view: ClassView;
}

/** A view with what stands around it. */
export function aroundClass(words: Words, { page, place, view }: Shown): Framed {
  const name = h("p", {}, sign(), h("span", {}, view.of?.name ?? words.say("school.school")));
  const isTeacher = page?.me?.role === "teacher" && place.view !== "join";
  return {
    title: view.title,
    body: view.body,
    head: isTeacher
      ? [name, h("nav", { "aria-label": words.say("school.places") }, links(words, place, view))]
      : [name],
    foot: [
      ...languageNotes(words).map((note) => h("p", { class: "small" }, note)),
      ...(page?.me === undefined ? [] : foot(page, page.me.name)),
    ],
  };
}

function links(words: Words, place: Place, { of }: ClassView): Node[] {
  const to = (view: "class" | "people" | "classes", address: Place): Node => {
    const isHere = place.view === view || (view === "class" && place.view === "student");
    return placeLink(words.say("school.place", { place: view }), placeText(address), isHere);
  };
  const own = of === undefined ? [] : (["class", "people"] as const).map((view) => to(view, { view, of: of.name }));
  return [...own, to("classes", { view: "classes" })];
}

function foot({ words, again }: ClassPage, name: string): Node[] {
  const signOut = async (): Promise<void> => {
    await ask(at("session"), { method: "DELETE" });
    again();
  };
  return [
    h("p", { class: "small" }, words.say("school.signed-in-as", { name })),
    h("p", { class: "small" }, h("a", { href: PRACTICE }, words.say("school.practice-page"))),
    h(
      "p",
      {},
      h("button", { type: "button", class: "quiet", click: () => void signOut() }, words.say("school.sign-out")),
    ),
  ];
}
