/** The commands about students, loaded together. */
export { enrolCommand } from "./enrol.js";
export { placeCommand } from "./place.js";
export { standingCommand } from "./standing.js";
export { submitCommand } from "./submit.js";
