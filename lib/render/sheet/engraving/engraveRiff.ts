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

/** A riff drawn once in one line, from which its systems follow. */
export interface RiffDraft {
  readonly musicXml: string;
  /** The number of bars. */
  readonly bars: number;
  /** The fewest systems in which it fits. */
  readonly systems: number;
  /** Its width in one line, in points. */
  readonly natural: number;
}

export interface EngravingRoom {
  readonly engraver: Engraver;
  /** In points. */
  readonly width: number;
}

/**
 * Engraves a riff in a width (points). It has one system when that fits, else the fewest that fit; the numbers of bars differ by at most one.
 *
 * Problem: ENGRAVING_FAILED.
 */
export function engraveRiff(musicXml: string, room: EngravingRoom): Result<EngravedRiff> {
  const draft = draftRiff(musicXml, room);
  return draft.ok ? engraveDraft(draft.value, draft.value.systems, room) : draft;
}

/** Draws a riff in one line to find how many systems it needs. Problem: ENGRAVING_FAILED. */
export function draftRiff(musicXml: string, { engraver, width }: EngravingRoom): Result<RiffDraft> {
  const natural = engraver.engrave(musicXml, { width: width / SPACE, systems: "one" });
  if (!natural.ok) return natural;
  const [whole] = readEngraving(natural.value);
  if (whole === undefined) return success({ musicXml, bars: 0, systems: 0, natural: 0 });
  const bars = whole.bars.length;
  return success({ musicXml, bars, systems: systemsFor(whole, width), natural: whole.bars.at(-1)!.right });
}

/** Engraves a riff in a number of systems, whose numbers of bars differ by at most one. Problem: ENGRAVING_FAILED. */
export function engraveDraft(
  { musicXml, bars: all, natural }: RiffDraft,
  systems: number,
  { engraver, width }: EngravingRoom,
): Result<EngravedRiff> {
  const bars = sharedOut(all, Math.min(systems, all));
  if (bars.length === 0) return success({ systems: [], bars });
  const used = bars.length === 1 && natural * WIDEST < NEARLY * width ? natural * WIDEST : width;
  const written = engraver.engrave(withSystemsAt(musicXml, startsOf(bars)), {
    width: used / SPACE,
    systems: "as written",
  });
  return written.ok ? success({ systems: readEngraving(written.value), bars }) : written;
}

/** The fewest systems in which bars of these widths fit. */
function systemsFor({ bars, heads }: System, width: number): number {
  // Clef and key signature are repeated in each system. The time signature is not, so this is slightly too wide.
  const lead = (heads[0]?.x ?? 0) - bars[0]!.left;
  const fits = (counts: readonly number[]): boolean => {
    let at = 0;
    return counts.every((count, i) => {
      // The names of the staves of a score stand before the first system.
      const natural = bars[at + count - 1]!.right - (i === 0 ? 0 : bars[at]!.left - lead);
      at += count;
      return natural * CLOSEST <= width;
    });
  };
  for (let systems = 1; systems < bars.length; systems++) if (fits(sharedOut(bars.length, systems))) return systems;
  return bars.length;
}

/** Bars shared out to systems, the first ones with one more where they do not come out even. */
function sharedOut(bars: number, systems: number): readonly number[] {
  return Array.from({ length: systems }, (_, i) => Math.ceil((bars - i) / systems));
}

/** The first measure of each system, the first system included: the engraver uses written breaks only when there are some. */
function startsOf(counts: readonly number[]): ReadonlySet<number> {
  return new Set(counts.map((_, i) => counts.slice(0, i).reduce((a, b) => a + b, 0)));
}
