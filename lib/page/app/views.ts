import type { ShowView } from "./page.js";
import type { ViewName } from "./route.js";

/** Each view, loaded when it is first asked for. */
export const VIEWS: Readonly<Record<ViewName, () => Promise<ShowView>>> = {
  choose: async () => (await import("./views/choose.js")).showChoose,
  today: async () => (await import("./views/today.js")).showToday,
  course: async () => (await import("./views/course.js")).showCourse,
  drill: async () => (await import("./views/drill.js")).showDrill,
  take: async () => (await import("./views/take.js")).showTake,
  history: async () => (await import("./views/history.js")).showHistory,
  sound: async () => (await import("./views/sound.js")).showSound,
  teacher: async () => (await import("./views/teacher.js")).showTeacher,
};
