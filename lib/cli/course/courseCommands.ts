/** The commands about a course and what follows from it, loaded together. */
export { compileCommand } from "./compile.js";
export { decideCommand } from "./decide.js";
export { gateCommand } from "./gate.js";
export { rungsCommand } from "./rungs.js";
export { scoreCommand } from "./score.js";
export { wordsCommand } from "./words.js";
