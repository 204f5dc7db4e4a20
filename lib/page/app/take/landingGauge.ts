import { shape } from "../view/element.js";
import { flag } from "../view/phraseStrip.js";

const WIDTH = 328;
const MIDDLE = 164;
/** Room for an early or late note, px on each side. */
const REACH = 140;

/**
 * A landing seen close: silence on its left, the band from the flag on, the student's note where it fell, the limit as a bracket. Words beside it say
 * the same.
 */
export function landingGauge(
  { ms, standardErrorMs }: { readonly ms: number; readonly standardErrorMs: number },
  { limit, isWithin }: { readonly limit: number | undefined; readonly isWithin: boolean },
): SVGSVGElement {
  const widest = Math.max(60, 1.4 * (limit ?? 0), 1.15 * (Math.abs(ms) + 2 * standardErrorMs));
  const x = (at: number): number => MIDDLE + (at / widest) * REACH;
  const at = x(ms);
  const reach = Math.max(0, (standardErrorMs * 2 * REACH) / widest);
  const bracket = limit === undefined ? undefined : `M${x(-limit)} 16v-5H${x(limit)}v5`;
  return shape(
    "svg",
    { class: "gauge", viewBox: `0 0 ${WIDTH} 52`, "aria-hidden": "true", focusable: "false" },
    shape("rect", { x: 8, y: 38, width: MIDDLE - 8, height: 9, class: "f-hatch" }),
    shape("rect", { x: 8, y: 38, width: MIDDLE - 8, height: 9, class: "s-hatch", "stroke-width": 0.8 }),
    shape("rect", { x: MIDDLE + 1, y: 38, width: 75, height: 9, class: "f-sound" }),
    shape("rect", { x: MIDDLE + 78, y: 38, width: 78, height: 9, class: "f-sound" }),
    bracket !== undefined && shape("path", { d: bracket, class: "s-muted", "stroke-width": 1.4 }),
    shape("path", { d: `M${MIDDLE} 26H${at}`, class: isWithin ? "s-within" : "s-beyond", "stroke-width": 2 }),
    shape("path", { d: `M${at - reach} 26h${2 * reach}`, class: "s-muted", "stroke-width": 5, opacity: 0.35 }),
    flag(MIDDLE, 4, 50),
    isWithin
      ? shape("circle", { cx: at, cy: 26, r: 5.5, class: "f-within" })
      : shape("path", { d: `M${at} 19l7 7l-7 7l-7 -7z`, class: "o-beyond" }),
  );
}
