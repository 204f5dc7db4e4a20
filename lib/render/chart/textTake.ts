import type { Finding, Score } from "../../schema/index.js";
import { visible } from "./svg.js";
import { driftLimit } from "./takeWords.js";
import { textStrip } from "./textStrip.js";

/** Cells of a gauge on either side of its middle. */
const SIDE = 3;
/** Cells from the middle to the edge of the tolerance. */
const EDGE = 2;

/**
 * What a take showed, for a terminal: the strip of its score, and at the end of each line the verdict on the silence that ends there, a gauge
 * (early to the left, late to the right, brackets at the tolerance), the drift with its standard error, and where the note at the re-entry fell (or
 * that it was left out); a limit it broke is said, and a slip, in beats.
 *
 * Control characters in what the finding says are shown as `·`. Every line ends in a line end.
 * @example textTake(score, finding) // "  pass 1    │━━━━│━━━━│━━━━│━━··│  within   [·│●]  +12 ± 9 ms; back +8\n..."
 */
export function textTake(score: Score, finding: Finding): string {
  const remarks = new Map(
    finding.dropouts.map((dropout, i): [number, string] => {
      const room = { drift: driftLimit(score, dropout), reentry: score.tolerance.reentryMs };
      return [i, visible(remarkOn(dropout, room))];
    }),
  );
  return textStrip(score, { remarks });
}

function remarkOn(
  dropout: Finding["dropouts"][number],
  { drift: limit, reentry: reentryLimit }: { readonly drift: number | undefined; readonly reentry: number | undefined },
): string {
  const { driftMs, standardErrorMs, reentryMs, landing, slip, verdict } = dropout;
  if (typeof driftMs !== "number") return `${verdict}: ${driftMs.unmeasured}`;
  const error = typeof standardErrorMs === "number" ? ` ± ${standardErrorMs.toFixed(0)}` : "";
  const tooFar = typeof reentryMs === "number" && Math.abs(reentryMs) > (reentryLimit ?? Number.POSITIVE_INFINITY);
  const limitText = tooFar ? ` > ${reentryLimit}` : "";
  const leftOut = landing !== undefined && landing !== null && "leftOut" in landing;
  const back = leftOut
    ? "; landing left out"
    : typeof reentryMs === "number"
      ? `; back ${signedText(reentryMs, 0)}${limitText}`
      : "";
  const gauge = limit === undefined ? "" : `${driftGauge(driftMs, limit)} `;
  return `${verdict.padEnd(8)}${gauge}${signedText(driftMs, 0)}${error} ms${back}${slip ? `; slipped ${signedText(slip.beats, 1)} beats` : ""}`;
}

/** Where a drift lies: `│` for none, brackets at the tolerance, `●` the drift, `◂` and `▸` when it is further off than the gauge reaches. */
export function driftGauge(driftMs: number, limitMs: number): string {
  const cells: string[] = Array.from({ length: 2 * SIDE + 1 }, (_, i) => (Math.abs(i - SIDE) < EDGE ? "·" : " "));
  cells[SIDE] = "│";
  cells[SIDE - EDGE] = "[";
  cells[SIDE + EDGE] = "]";
  // A drift inside the tolerance is drawn inside the brackets, one beyond it outside, however near the edge.
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
