import type { Finding, Score } from "../../../schema/index.js";
import { textStrip } from "../rung/textStrip.js";
import { visible } from "../svg.js";
import { driftLimit } from "./description.js";

/** Cells of a gauge on each side of its middle. */
const SIDE = 3;
/** Cells from the middle to the edge of the tolerance. */
const EDGE = 2;

/**
 * The result of a take as text, for a terminal: the strip of its score, and after each line the result of the silence that ends there: verdict, gauge
 * (early on the left, late on the right, brackets at the tolerance), drift with its standard error, asynchrony at landing with the limit when it is
 * exceeded (or that the note was left out); a slip, in beats, stands instead.
 *
 * Control characters in what the finding says are shown as `·`. Every line ends in a line end.
 * @example textTake(score, finding) // "  phrase 1  │━━━━│━━━━│━━━━│━━··│  within   [·│●]  +12 ± 9 ms; back +8\n..."
 */
export function textTake(score: Score, finding: Finding): string {
  const results = new Map(
    finding.dropouts.map((dropout, i): [number, string] => {
      const room = { drift: driftLimit(score, dropout), landing: score.tolerance.landingMs };
      return [i, visible(resultOf(dropout, room))];
    }),
  );
  return textStrip(score, { results });
}

function resultOf(
  dropout: Finding["dropouts"][number],
  { drift: limit, landing: landingLimit }: { readonly drift: number | undefined; readonly landing: number | undefined },
): string {
  const { driftMs, standardErrorMs, landing, slip, verdict } = dropout;
  if (typeof driftMs !== "number") return `${verdict}: ${driftMs.unmeasured}`;
  const error = typeof standardErrorMs === "number" ? ` ± ${standardErrorMs.toFixed(0)}` : "";
  const landingMs = landing !== null && "ms" in landing ? landing.ms : undefined;
  const tooFar = landingMs !== undefined && Math.abs(landingMs) > (landingLimit ?? Number.POSITIVE_INFINITY);
  const limitText = tooFar ? ` > ${landingLimit}` : "";
  const leftOut = landing !== null && "leftOut" in landing;
  const landed = leftOut
    ? "; back left out"
    : landingMs !== undefined
      ? `; back ${signedText(landingMs, 0)}${limitText}`
      : "";
  // The slip says more than where the landing fell, and both do not fit into a line of a terminal.
  const back = slip ? `; slip ${signedText(slip.beats, 1).replace(".0", "")} beats` : landed;
  const gauge = limit === undefined ? "" : `${driftGauge(driftMs, limit)} `;
  return `${verdict.padEnd(8)}${gauge}${signedText(driftMs, 0)}${error} ms${back}`;
}

/** A gauge of a drift: `│` is no drift, brackets are the tolerance, `●` is the drift, `◂` and `▸` a drift beyond the ends of the gauge. */
export function driftGauge(driftMs: number, limitMs: number): string {
  const cells: string[] = Array.from({ length: 2 * SIDE + 1 }, (_, i) => (Math.abs(i - SIDE) < EDGE ? "·" : " "));
  cells[SIDE] = "│";
  cells[SIDE - EDGE] = "[";
  cells[SIDE + EDGE] = "]";
  // A drift within tolerance is always inside the brackets, a drift beyond it always outside.
  const share = Math.abs(driftMs) / limitMs;
  const steps =
    share <= 1 ? Math.min(EDGE - 1, Math.round(share * EDGE)) : Math.max(EDGE + 1, Math.round(share * EDGE));
  const place = SIDE + Math.sign(driftMs) * Math.min(SIDE, steps);
  cells[place] = steps > SIDE ? (driftMs < 0 ? "◂" : "▸") : "●";
  return cells.join("");
}

function signedText(value: number, digits: number): string {
  const text = value.toFixed(digits);
  if (Number(text) === 0) return text.replace("-", "");
  return value > 0 ? `+${text}` : text;
}
