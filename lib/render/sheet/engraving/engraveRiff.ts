import { type Result, success } from "../../../base/index.js";
import { STAFF } from "../pageStyle.js";
import type { Engraver } from "./engraver.js";
import { withSystemsAt } from "./engraverXml.js";
import { readEngraving, type System } from "./readEngraving.js";

/** A riff engraved over one or more systems. */
export interface EngravedRiff {
  readonly systems: readonly System[];
  /** How many bars each system has. */
  readonly bars: readonly number[];
}

const SPACE = STAFF / 4;
/** Our choice: how much closer than their natural distance notes may stand before a second system is taken. */
const CLOSEST = 0.93;
/** Our choice: a short riff is not stretched over more than this many times its natural width. */
const WIDEST = 1.35;
/** Our choice: what is nearly as wide as the page is made as wide, so that the right edge is straight. */
const NEARLY = 0.9;

/**
 * Engraves a riff into a width (points): one system if it fits, else as few as fit, each with as many bars as the others or one less.
 *
 * Problem: ENGRAVING_FAILED.
 */
export function engraveRiff(
  musicXml: string,
  { engraver, width }: { engraver: Engraver; width: number },
): Result<EngravedRiff> {
  const natural = engraver.engrave(musicXml, { width: width / SPACE, systems: "one" });
  if (!natural.ok) return natural;
  const [whole] = readEngraving(natural.value);
  if (whole === undefined) return success({ systems: [], bars: [] });
  const bars = systemsFor(whole, width);
  const total = whole.bars.at(-1)!.right;
  const used = bars.length === 1 && total * WIDEST < NEARLY * width ? total * WIDEST : width;
  const written = engraver.engrave(withSystemsAt(musicXml, startsOf(bars)), {
    width: used / SPACE,
    systems: "as written",
  });
  return written.ok ? success({ systems: readEngraving(written.value), bars }) : written;
}

/** Bars to a system. */
function systemsFor({ bars, heads }: System, width: number): readonly number[] {
  // Clef and signature stand again at the start of each system; the meter does not, so this is a little much.
  const lead = (heads[0]?.x ?? 0) - bars[0]!.left;
  const fits = (counts: readonly number[]): boolean => {
    let at = 0;
    return counts.every((count, i) => {
      const natural = bars[at + count - 1]!.right - bars[at]!.left + (i === 0 ? 0 : lead);
      at += count;
      return natural * CLOSEST <= width;
    });
  };
  for (let systems = 1; systems < bars.length; systems++) {
    const counts = Array.from({ length: systems }, (_, i) => Math.ceil((bars.length - i) / systems));
    if (fits(counts)) return counts;
  }
  return bars.map(() => 1);
}

/** Where each system begins, the first included: the engraver takes systems as written only where some are. */
function startsOf(counts: readonly number[]): ReadonlySet<number> {
  return new Set(counts.map((_, i) => counts.slice(0, i).reduce((a, b) => a + b, 0)));
}
