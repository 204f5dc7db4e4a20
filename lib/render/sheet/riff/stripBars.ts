import { add, subtract, toNumber } from "../../../base/index.js";
import type { PageBar } from "../../musicxml/index.js";
import type { System } from "../engraving/readEngraving.js";
import type { StripBar } from "./silenceStrip.js";

/** White before a head that the cell under it begins with. */
const BEFORE = 1;
/** The same before the first head of a system, which has no bar line before it. */
const BEFORE_FIRST = 3;

/** The bars of a system as the strip under it needs them, a pick-up left out; `bars` are all of the riff, `first` is the system's first. */
export function stripBars(system: System, bars: readonly PageBar[], first: number): readonly StripBar[] {
  const here = bars.slice(first, first + system.bars.length);
  return here
    .map((bar, i) => stripBar(system, bar, { inSystem: i, inRiff: first + i }))
    .filter(({ number }) => number > 0);
}

/** Where a bar's positions stand: its lines at its ends, its notes between, and between these in proportion. */
function stripBar(system: System, bar: PageBar, { inSystem, inRiff }: { inSystem: number; inRiff: number }): StripBar {
  const { left, right } = system.bars[inSystem]!;
  const length = toNumber(bar.length);
  const heads = system.heads.filter((head) => head.bar === inRiff).map(({ quarters, x }) => ({ at: quarters / 4, x }));
  const opening = inSystem === 0 && heads[0] !== undefined ? Math.max(left, heads[0].x - BEFORE_FIRST) : left + BEFORE;
  const between = heads.filter(({ at }) => at > 1e-9 && at < length - 1e-9).map(({ at, x }) => ({ at, x: x - BEFORE }));
  const anchors = [{ at: 0, x: opening }, ...between, { at: length, x: right }];
  return {
    number: Number(bar.number),
    from: bar.position,
    to: add(bar.position, bar.length),
    x(position) {
      const at = toNumber(subtract(position, bar.position));
      const found = anchors.findIndex((anchor) => anchor.at >= at - 1e-9);
      const after = Math.max(1, found < 0 ? anchors.length - 1 : found);
      const [a, b] = [anchors[after - 1]!, anchors[after]!];
      const share = b.at === a.at ? 0 : (at - a.at) / (b.at - a.at);
      return a.x + Math.max(0, Math.min(1, share)) * (b.x - a.x);
    },
  };
}
