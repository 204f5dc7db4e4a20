/** The commands of a school's server and of its workers, loaded together. */
export { serveCommand } from "./serve.js";
export { workCommand } from "./work.js";
