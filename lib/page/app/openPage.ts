import { loadWords } from "../../words/index.js";
import type { PageIndex } from "../model.js";
import { tookOffline } from "./offline.js";
import type { Page, View } from "./page.js";
import { type Route, readRoute, routeText } from "./route.js";
import { inShell, showKept } from "./shell.js";
import { fileText } from "./state/files.js";
import { type OpenedCourse, openListed } from "./state/openedCourse.js";
import { openPageStore } from "./state/pageStore.js";
import { currentStudent } from "./state/students.js";
import { frameOf } from "./view/frame.js";
import { VIEWS } from "./views.js";

/** Opens the page in an element, and shows what its address asks for from then on. */
export async function openPage(root: HTMLElement): Promise<void> {
  const index = JSON.parse(await fileText("page.json")) as PageIndex;
  const words = await loadWords(index.language, { problems: false });
  if (!words.ok) throw new Error(words.problems[0]!.message);
  document.documentElement.lang = words.value.language;
  const frame = frameOf(root, words.value);
  const courses = new Map<string, Promise<OpenedCourse>>();
  let store: ReturnType<typeof openPageStore> | undefined;
  let showing: View | undefined;
  let turn = 0;

  const page: Page = {
    words: words.value,
    index,
    get student() {
      return currentStudent();
    },
    get listed() {
      const wanted = readRoute(location.hash).asked.course ?? currentStudent()?.course;
      return index.courses.find(({ name }) => name === wanted) ?? index.courses[0];
    },
    course: () => {
      const { listed } = page;
      if (listed === undefined) throw new Error("the page has no course");
      const opened = courses.get(listed.file) ?? openListed(listed);
      courses.set(listed.file, opened);
      return opened;
    },
    store: async () => {
      store ??= openPageStore();
      return (await store).store;
    },
    kept: async () => {
      store ??= openPageStore();
      return (await store).kept();
    },
    askToKeep: async () => {
      store ??= openPageStore();
      return (await store).askToKeep();
    },
    school:
      index.school === undefined
        ? undefined
        : import("./practising.js").then(({ openSchool }) =>
            openSchool(
              () => page.store(),
              () => showKept(page),
            ),
          ),
    played: { current: undefined },
    go: (route) => {
      const address = routeText(route);
      if (location.hash === address) void show();
      else location.hash = address;
    },
    announce: frame.announce,
  };

  const show = async (): Promise<void> => {
    const mine = ++turn;
    const route = placeFor(page, readRoute(location.hash));
    showing?.leave?.();
    showing = undefined;
    const view = await (await VIEWS[route.view]())(page, route);
    // Somebody went on while it was made ready.
    if (mine !== turn) view.leave?.();
    else {
      showing = view;
      frame.show(inShell(page, route, view));
    }
  };
  // What was played elsewhere, and what teachers set, is known before the plan is made, where the school answers at once.
  await meetSchool(page);
  addEventListener("hashchange", () => void show());
  await show();
  tookOffline();
}

/** Milliseconds for which the first view waits for the school: our choice. What comes later is in the next view. */
const SCHOOL_MS = 1500;

async function meetSchool({ school, student, listed }: Page): Promise<void> {
  if (school === undefined || student === undefined || listed === undefined) return;
  const met = school.then(({ meet }) => meet(student.name, listed.name));
  await Promise.race([met, new Promise((resolve) => setTimeout(resolve, SCHOOL_MS))]);
}

/** Where somebody comes to: without a student or a course there is nothing to play, but a link to a drill can be looked at and heard. */
function placeFor(page: Page, route: Route): Route {
  if (page.listed === undefined) return { ...route, view: "teacher" };
  const needsNobody = ["choose", "course", "drill", "teacher"].includes(route.view);
  if (page.student === undefined && !needsNobody) return { ...route, view: "choose" };
  if (route.view === "take" && page.played.current === undefined) return { ...route, view: "today" };
  if (route.view === "drill" && route.drill === undefined) return { ...route, view: "course" };
  return route;
}
