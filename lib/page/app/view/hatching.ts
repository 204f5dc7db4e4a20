import { shape } from "./element.js";

/** The pattern of a silence, which the class `f-hatch` fills with; it stands on the page once. */
export function hatching(): SVGSVGElement {
  return shape(
    "svg",
    { width: 0, height: 0, class: "unseen", "aria-hidden": "true", focusable: "false" },
    shape(
      "defs",
      {},
      shape(
        "pattern",
        { id: "hatch", width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
        shape("rect", { width: 6, height: 6, class: "f-still" }),
        shape("path", { d: "M0 0V6", class: "s-hatch", "stroke-width": 2 }),
      ),
    ),
  );
}
