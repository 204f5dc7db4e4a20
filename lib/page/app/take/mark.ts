import type { Finding } from "../../../schema/index.js";
import { shape } from "../view/element.js";

/** A verdict as a shape: a dot, a diamond, a broken ring. */
export function mark(verdict: Finding["verdict"]): SVGSVGElement {
  const inside =
    verdict === "within"
      ? shape("circle", { cx: 8, cy: 8, r: 6.5, class: "f-within" })
      : verdict === "beyond"
        ? shape("path", { d: "M8 1.5L14.5 8L8 14.5L1.5 8z", class: "o-beyond" })
        : shape("circle", { cx: 8, cy: 8, r: 6, class: "s-edge", "stroke-width": 1.8, "stroke-dasharray": "3 2.4" });
  return shape(
    "svg",
    { viewBox: "0 0 16 16", width: 16, height: 16, "aria-hidden": "true", focusable: "false" },
    inside,
  );
}
