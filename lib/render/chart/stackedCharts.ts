import { LETTERING } from "./lettering.js";
import { element, escapeText, type Svg } from "./svg.js";

/** Charts of one width, one below the other, as one SVG document; `about` says what they are. */
export function stackedCharts(
  charts: readonly Svg[],
  { width, about }: { readonly width: number; readonly about: string },
): Svg {
  let y = 0;
  const placed = charts.map((svg) => {
    const [, height, inside] = WHOLE.exec(svg)!;
    const piece = element("g", { transform: `translate(0 ${y})`, ...LETTERING }, inside);
    y += Number(height);
    return piece;
  });
  const title = charts.map((svg) => /<title>([^<]*)<\/title>/.exec(svg)![1]!).join(" ");
  const attributes = {
    xmlns: "http://www.w3.org/2000/svg",
    viewBox: `0 0 ${width} ${y}`,
    width,
    height: y,
    role: "img",
  };
  return element(
    "svg",
    attributes,
    `<title>${title}</title>${element("desc", {}, escapeText(about))}${placed.join("")}`,
  );
}

/** Matches a chart: its height and its content. */
const WHOLE = /^<svg [^>]*viewBox="0 0 \d+ (\d+)"[^>]*>(.*)<\/svg>$/s;
