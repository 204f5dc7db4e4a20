/** The views of a student at work, and the school they may be of, as one part: who sees one of them soon sees the others. */
export { openSchool } from "./school/school.js";
export { showCourse } from "./views/course.js";
export { showDrill } from "./views/drill.js";
export { showHistory } from "./views/history.js";
export { showSound } from "./views/sound.js";
export { showTake } from "./views/take.js";
export { showToday } from "./views/today.js";
