import type { Pattern } from "../../pattern/index.js";
import { barLength } from "../../time/index.js";
import type { Page, PageStaff, Reader } from "./page.js";
import { pickupBars } from "./takePage.js";

export interface RiffPageOptions {
  /** Name of the part. */
  readonly part: string;
  /** Its variant; needed where it has some. */
  readonly variant?: string | undefined;
  readonly reader?: Reader | undefined;
  readonly tempo?: Page["tempo"];
  readonly brackets?: PageStaff["brackets"];
  readonly open?: PageStaff["open"];
}

/**
 * One part of a pattern in one variant, once through, with its pick-up. Throws `RangeError` for a part or variant the pattern does not have.
 *
 * @example
 * riffPage(drill.pattern, { part: drill.student, variant: "plain" }).bars.length // the bars of the pattern
 */
export function riffPage(pattern: Pattern, options: RiffPageOptions): Page {
  const part = pattern.parts.find(({ name }) => name === options.part);
  const notes = part?.variants[options.variant ?? ""] ?? part?.variants[""];
  if (part === undefined || notes === undefined) {
    throw new RangeError(
      `pattern ${pattern.name} has no part ${options.part} in a variant ${options.variant ?? "of its own"}`,
    );
  }
  const bars = pattern.bars.map(({ number, position, meter }) => {
    return { position, length: barLength(meter), meter, number: String(number), isPickup: false };
  });
  const { reader, brackets = [], open = [] } = options;
  return {
    title: pattern.title ?? pattern.name,
    tempo: options.tempo,
    swing: pattern.swing,
    key: pattern.key,
    bars: [...pickupBars(pattern), ...bars],
    chords: pattern.chords,
    staves: [{ name: part.name, kind: part.kind, notes, reader, brackets, open }],
  };
}
