/** What an application needs that follows a compiled course. No door: a place at which the library is cut, see build.mjs. */
export { openCourse } from "../lib/curriculum/compiled/openCourse.js";
export { rungs } from "../lib/drill/rung/rungs.js";
export { scoreOf } from "../lib/drill/score/score.js";
export { decide } from "../lib/progress/decide/decide.js";
export { assess } from "../lib/take/assess.js";
