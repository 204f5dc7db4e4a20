import type { ShowView } from "../page.js";
import { cautions } from "../view/cautions.js";
import { h } from "../view/element.js";

export const showSound: ShowView = async ({ words }) => {
  const title = words.say("page.sound");
  return { title, body: [h("h1", {}, title), h("p", {}, words.say("page.sound-lead")), cautions(words)] };
};
