/** The commands about recordings, loaded together. */
export { calibrateCommand } from "./calibrate.js";
export { draftCommand } from "./draft.js";
export { listenCommand } from "./listen.js";
