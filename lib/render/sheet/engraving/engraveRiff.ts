import { success } from "../../../base/index.js";
import type { Result } from "../../problem.js";
import { STAFF } from "../pageStyle.js";
import type { Engraver } from "./engraver.js";
import { withSystemsAt } from "./engraverXml.js";
import { readEngraving, type System } from "./readEngraving.js";

/** A riff engraved over one or more systems. */
export interface EngravedRiff {
  readonly systems: readonly System[];
  /** The number of bars in each system. */
  readonly bars: readonly number[];
}

const SPACE = STAFF / 4;
/** Smallest factor for the natural note spacing before another system is used; our choice. */
const CLOSEST = 0.93;
/** Largest factor by which a short riff is stretched beyond its natural width; our choice. */
const WIDEST = 1.35;
/** A riff wider than this share of the page is stretched to the full width, so that the right edge is straight; our choice. */
const NEARLY = 0.9;

/**
 * Engraves a riff in a width (points). It has one system when that fits, else the fewest that fit; the numbers of bars differ by at most one.
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

/** The number of bars in each system. */
function systemsFor({ bars, heads }: System, width: number): readonly number[] {
  // Clef and key signature are repeated in each system. The time signature is not, so this is slightly too wide.
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

/** The first measure of each system, the first system included: the engraver uses written breaks only when there are some. */
function startsOf(counts: readonly number[]): ReadonlySet<number> {
  return new Set(counts.map((_, i) => counts.slice(0, i).reduce((a, b) => a + b, 0)));
}
