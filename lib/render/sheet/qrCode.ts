import { encode } from "uqr";
import type { PathMark } from "./drawing.js";
import { INK } from "./pageStyle.js";

/** Modules of white around a code (ISO/IEC 18004, quiet zone). */
const QUIET = 4;

/**
 * A text as a QR code in a square of `side` points, its quiet zone included; the upper left corner is at the origin. Error correction M reads a code of
 * which 15 % is dirty or folded.
 */
export function qrCode(text: string, side: number): PathMark {
  const { data } = encode(text, { ecc: "M", border: QUIET });
  const runs = data.flatMap((row, y) => runsIn(row).map(({ from, to }) => `M${from} ${y}H${to}V${y + 1}H${from}Z`));
  const scale = side / data.length;
  return { kind: "path", x: 0, y: 0, scaleX: scale, scaleY: scale, d: runs.join(""), fill: INK };
}

/** Stretches of dark modules in a row. */
function runsIn(row: readonly boolean[]): readonly { readonly from: number; readonly to: number }[] {
  const runs: { from: number; to: number }[] = [];
  for (const [x, isDark] of row.entries()) {
    if (!isDark) continue;
    const last = runs.at(-1);
    if (last?.to === x) last.to = x + 1;
    else runs.push({ from: x, to: x + 1 });
  }
  return runs;
}
