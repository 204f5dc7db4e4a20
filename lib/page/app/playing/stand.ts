import type { Score } from "../../../schema/index.js";
import type { Words } from "../../../words/index.js";
import type { Sheet } from "../../model.js";
import { drawing } from "../view/drawing.js";
import { shape } from "../view/element.js";
import { along, barHolding, placesOn } from "./barPlaces.js";
import { STRIP, stripShapes } from "./stripUnder.js";

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
  const places = placesOn(sheet);
  let shown = 0;
  return {
    element,
    showPhrase: (number) => {
      if (number === shown) return;
      shown = number;
      strips.replaceChildren(...stripShapes(score, { places, number, words }));
    },
    mark: (at, waiting = false) => {
      const bar = at === undefined ? undefined : barHolding(score, at);
      const place = bar === undefined ? undefined : places.get(bar.number);
      mark.setAttribute("visibility", place === undefined ? "hidden" : "visible");
      if (at === undefined || bar === undefined || place === undefined) return;
      const x = along(place.anchors, (at - bar.from) / (bar.to - bar.from));
      const low = place.bottom - place.top + STRIP.below + STRIP.height + 4;
      mark.setAttribute("transform", `translate(${x.toFixed(1)} ${place.top})`);
      hair.setAttribute("d", `M0 -3V${low.toFixed(1)}`);
      head.setAttribute("class", waiting ? "o-edge" : "f-within");
    },
  };
}
