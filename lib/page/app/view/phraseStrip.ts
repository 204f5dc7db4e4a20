import { beatAt } from "../../../base/index.js";
import { silencesHeard } from "../../../render/chart/index.js";
import type { Score } from "../../../schema/index.js";
import { shape } from "./element.js";

const WIDTH = 190;
const ROOM = 178;

/** One phrase of a score at a glance: the beats on which the band sounds, the silence hatched, the landing as a flag. It is an ornament beside words. */
export function phraseStrip(score: Score): SVGSVGElement {
  const silence = silencesHeard(score)[0];
  const first = score.bars.find(({ at, phrase }) => phrase > 0 && at >= 0);
  const within = score.bars.findLast(({ at }) => at <= (silence?.from ?? first?.at ?? 0) + 1e-6) ?? first;
  const bars = score.bars.filter(({ phrase }) => phrase === within?.phrase);
  const from = bars[0]?.at ?? 0;
  const to = score.bars.find(({ at }) => at > (bars.at(-1)?.at ?? 0) + 1e-6)?.at ?? score.duration;
  const x = (at: number): number => ((Math.min(to, Math.max(from, at)) - from) / (to - from)) * ROOM;
  const silences = silencesHeard(score).filter((each) => each.from < to && each.to > from);
  const cells: Node[] = [];
  const beat = beatAt(score, from);
  for (let at = from; at < to - 1e-6; at += beat) {
    const middle = at + beat / 2;
    if (silences.some((each) => each.from <= middle && middle < each.to)) continue;
    cells.push(
      shape("rect", {
        x: x(at),
        y: 12,
        width: Math.max(1, x(at + beat) - x(at) - 1.2),
        height: 8,
        class: "f-sound",
      }),
    );
  }
  for (const each of silences) {
    const box = { x: x(each.from), y: 12, width: x(each.to) - x(each.from), height: 8 };
    cells.push(
      shape("rect", { ...box, class: "f-hatch" }),
      shape("rect", { ...box, class: "s-hatch", "stroke-width": 0.8 }),
    );
    if (each.landing !== null && each.landing <= to + 1e-6) cells.push(flag(x(each.landing), 3, 24));
  }
  return shape(
    "svg",
    { class: "phrase", viewBox: `0 0 ${WIDTH} 26`, "aria-hidden": "true", focusable: "false" },
    cells,
  );
}

/** The mark of a landing. */
export function flag(x: number, top: number, bottom: number): Node {
  return shape(
    "g",
    {},
    shape("path", { d: `M${x} ${bottom}V${top}`, class: "s-ink", "stroke-width": 1.6 }),
    shape("path", { d: `M${x} ${top}l9 4.5l-9 4.5z`, class: "f-ink" }),
  );
}
