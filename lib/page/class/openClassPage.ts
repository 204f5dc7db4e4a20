import { loadWords } from "../../words/index.js";
import { frameOf } from "../app/view/frame.js";
import { ask, at } from "../school/ask.js";
import type { Listed, Me, ServedCourse } from "../school/model.js";
import { showJoin } from "./join/join.js";
import type { ClassPage, ClassView } from "./page.js";
import { type Place, placeText, readPlace } from "./route.js";
import { aroundClass } from "./shell.js";
import { nobodyHere, notForStudents, notReached } from "./states.js";
import { showPlace } from "./views.js";

/** Opens the page of a class in an element, and shows what its address asks for from then on. */
export async function openClassPage(root: HTMLElement): Promise<void> {
  const words = await loadWords(document.documentElement.lang, { problems: false });
  if (!words.ok) throw new Error(words.problems[0]!.message);
  const frame = frameOf(root, words.value);
  let turn = 0;
  const show = async (): Promise<void> => {
    const mine = ++turn;
    const place = readPlace(location.hash);
    const page = await pageFor(words.value, { again: () => void show(), announce: frame.announce });
    const view = page === undefined ? notReached(words.value, () => void show()) : await viewOf(page, place);
    // Somebody went on while it was made ready.
    if (mine === turn) frame.show(aroundClass(words.value, { page, place, view }));
  };
  addEventListener("hashchange", () => void show());
  await show();
}

/** The page with who is signed in now; `undefined` when the school is not reached. */
async function pageFor(
  words: ClassPage["words"],
  hands: Pick<ClassPage, "again" | "announce">,
): Promise<ClassPage | undefined> {
  const me = await ask<Me>(at("me"));
  if (!me.ok && me.refusal.status !== 401) return undefined;
  const courses = me.ok && me.value.role === "teacher" ? await ask<Listed<ServedCourse>>(at("courses")) : undefined;
  return {
    words,
    me: me.ok ? me.value : undefined,
    courses: courses?.ok ? courses.value.items : [],
    ...hands,
    go: (place) => {
      const address = placeText(place);
      if (location.hash === address) hands.again();
      else location.hash = address;
    },
  };
}

async function viewOf(page: ClassPage, place: Place): Promise<ClassView> {
  if (place.view === "join") return showJoin(page, place);
  if (page.me === undefined) return nobodyHere(page);
  if (page.me.role === "student") return notForStudents(page, page.me);
  return showPlace(page, place);
}
