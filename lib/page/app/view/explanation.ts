import type { Words } from "../../../words/index.js";
import { h, shape } from "./element.js";
import { flag } from "./phraseStrip.js";

const LEFT = 46;
const BEAT = 17;
/** Beats of the picture on which the band sounds: two bars, a silent one, and the return. */
const SOUNDING = [0, 1, 2, 3, 4, 5, 6, 7, 12, 13, 14, 15];
/** Beats on which the student plays, and which of them are the first of a bar. */
const OWN = [0, 1, 2, 4, 5, 6, 7, 8, 9, 10, 12, 13, 14, 15];

/** What the exercise is, in one drawing and a sentence. */
export function explanation(words: Words): HTMLElement {
  const x = (beat: number): number => LEFT + beat * BEAT;
  const text = (at: number, y: number, said: string): Node => shape("text", { x: at, y }, said);
  const svg = shape(
    "svg",
    { viewBox: "0 0 328 92", role: "img", "aria-label": words.say("page.what-it-is") },
    text(0, 35, words.say("page.band")),
    text(0, 61, words.say("page.you")),
    SOUNDING.map((beat) => shape("rect", { x: x(beat), y: 26, width: BEAT - 1.5, height: 9, class: "f-sound" })),
    shape("rect", { x: x(8), y: 26, width: 4 * BEAT - 1, height: 9, class: "f-hatch" }),
    shape("rect", { x: x(8), y: 26, width: 4 * BEAT - 1, height: 9, class: "s-hatch", "stroke-width": 0.8 }),
    flag(x(12), 8, 72),
    OWN.map((beat) =>
      shape("path", { d: `M${x(beat) + 1} 64v${beat % 4 === 0 ? -13 : -9}`, class: "s-within", "stroke-width": 2.6 }),
    ),
    shape("path", { d: `M${LEFT} 64H320`, class: "s-edge", "stroke-width": 1 }),
    text(LEFT, 18, words.say("page.band-plays")),
    text(x(8) - 14, 18, words.say("page.falls-silent")),
    text(x(12) + 13, 18, words.say("page.returns")),
    text(LEFT, 86, words.say("page.you-play")),
    text(x(8) - 14, 86, words.say("page.go-on")),
    text(x(12) - 4, 86, words.say("page.and-land")),
  );
  return h("div", {}, h("p", { class: "lead" }, words.say("page.lead")), h("figure", {}, svg));
}
