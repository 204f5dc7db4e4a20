import type { ShowView } from "./page.js";
import type { ViewName } from "./route.js";

/**
 * Each view, loaded when it is first asked for: what a newcomer sees, what a student does, and what a teacher does, each with what they share in few
 * files.
 */
export const VIEWS: Readonly<Record<ViewName, () => Promise<ShowView>>> = {
  choose: async () => (await import("./views/choose.js")).showChoose,
  today: async () => (await practising()).showToday,
  course: async () => (await practising()).showCourse,
  drill: async () => (await practising()).showDrill,
  take: async () => (await practising()).showTake,
  history: async () => (await practising()).showHistory,
  sound: async () => (await practising()).showSound,
  teacher: async () => (await import("./views/teacher.js")).showTeacher,
};

function practising(): Promise<typeof import("./practising.js")> {
  return import("./practising.js");
}
