export { reportPage } from "./reportPage.js";
