import { barAt, STRIP, stripUnder } from "../../../render/film/index.js";
import type { Score } from "../../../schema/index.js";
import type { Words } from "../../../words/index.js";
import type { Sheet } from "../../model.js";
import { drawing } from "../view/drawing.js";
import { shape } from "../view/element.js";
import { flag } from "../view/phraseStrip.js";

/** The riff on the stand, with what sounds and what is silent under it, and a mark for where the band is. */
export interface Stand {
  readonly element: SVGSVGElement;
  /** Draws what is silent in this phrase of the take, from 1. */
  showPhrase(number: number): void;
  /** Puts the mark at a place of the score, seconds from bar 1; hollow while it waits for the band. `undefined`: no mark. */
  mark(at: number | undefined, waiting?: boolean): void;
}

export function standOf(score: Score, sheet: Sheet, words: Words): Stand {
  const width = Math.max(sheet.width, 280);
  const element = drawing(
    `<svg xmlns="http://www.w3.org/2000/svg" class="score" viewBox="0 -14 ${width} ${sheet.height + 14}" role="img">${sheet.svg}</svg>`,
  );
  element.style.maxWidth = `${Math.round(width * 1.25)}px`;
  element.setAttribute("aria-label", words.say("page.riff-pictured", { bars: sheet.bars.length }));
  const strips = shape("g");
  const head = shape("path", { d: "M-6 -12h12l-6 9z" });
  const hair = shape("path", { d: "M0 -3V0", class: "s-within", "stroke-width": 1.2, "stroke-dasharray": "3 2" });
  const mark = shape("g", { class: "mark", visibility: "hidden" }, head, hair);
  element.append(strips, mark);
  let shown = 0;
  return {
    element,
    showPhrase: (number) => {
      if (number === shown) return;
      shown = number;
      strips.replaceChildren(...stripShapes(score, { bars: sheet.bars, number, words }));
    },
    mark: (at, waiting = false) => {
      const bar = at === undefined ? undefined : barAt(score, sheet.bars, at);
      mark.setAttribute("visibility", bar === undefined ? "hidden" : "visible");
      if (at === undefined || bar === undefined) return;
      const { top, bottom } = bar.place;
      const low = bottom - top + STRIP.below + STRIP.height + 4;
      mark.setAttribute("transform", `translate(${bar.x(at).toFixed(1)} ${top})`);
      hair.setAttribute("d", `M0 -3V${low.toFixed(1)}`);
      head.setAttribute("class", waiting ? "o-edge" : "f-within");
    },
  };
}

/** Under each bar of a phrase: its beats filled where the band sounds, hatched where it is silent, and the flag where it returns. */
function stripShapes(
  score: Score,
  { bars, number, words }: { readonly bars: Sheet["bars"]; readonly number: number; readonly words: Words },
): Node[] {
  return stripUnder(score, bars, number).flatMap(({ y, sounding, silent, landings }) => {
    const { height } = STRIP;
    return [
      ...sounding.map((beat) => shape("rect", { ...beat, y, height, class: "f-sound" })),
      ...silent.flatMap(({ begins, ...box }) => [
        shape("rect", { ...box, y, height, class: "f-hatch" }),
        shape("rect", { ...box, y, height, class: "s-hatch", "stroke-width": 0.8 }),
        ...(begins ? [shape("text", { x: box.x, y: y + height + 12 }, words.say("page.silence-go-on"))] : []),
      ]),
      ...landings.map((x) => flag(x, y - 5, y + height + 3)),
    ];
  });
}
