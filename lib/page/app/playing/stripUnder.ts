import { beatAt } from "../../../base/index.js";
import { silencesHeard } from "../../../render/chart/index.js";
import type { Score } from "../../../schema/index.js";
import type { Words } from "../../../words/index.js";
import { shape } from "../view/element.js";
import { flag } from "../view/phraseStrip.js";
import { along, barHolding, type HoldingBar, type PlacedBar, type Places } from "./barPlaces.js";

/** From the lowest ink of a system to its strip, and the strip's height, px. */
export const STRIP = { below: 8, height: 9 } as const;

export interface StripOptions {
  readonly places: Places;
  /** The phrase of the take, from 1. */
  readonly number: number;
  readonly words: Words;
}

/** Under each bar of a phrase: its beats filled where the band sounds, hatched where it is silent, and the flag where it returns. */
export function stripShapes(score: Score, { places, number, words }: StripOptions): Node[] {
  return score.bars
    .filter(({ phrase, at }) => phrase === number && at >= 0)
    .flatMap(({ bar, at }) => {
      const [place, holding] = [places.get(bar), barHolding(score, at)];
      return place === undefined || holding === undefined ? [] : barShapes(score, { place, holding, words });
    });
}

function barShapes(
  score: Score,
  { place, holding, words }: { readonly place: PlacedBar; readonly holding: HoldingBar; readonly words: Words },
): Node[] {
  const { from, to } = holding;
  const x = (time: number): number => along(place.anchors, (time - from) / (to - from));
  const y = place.bottom + STRIP.below;
  const shapes: Node[] = [];
  const length = beatAt(score, from);
  for (let beat = from; beat < to - 1e-6; beat += length)
    for (const [left, right] of sounding(score, beat, Math.min(to, beat + length)))
      shapes.push(
        shape("rect", {
          x: x(left),
          y,
          width: Math.max(1, x(right) - x(left) - 1.2),
          height: STRIP.height,
          class: "f-sound",
        }),
      );
  for (const silence of silencesHeard(score)) {
    const [left, right] = [Math.max(silence.from, from), Math.min(silence.to, to)];
    if (right - left > 1e-6) {
      const box = { x: x(left), y, width: x(right) - x(left), height: STRIP.height };
      shapes.push(shape("rect", { ...box, class: "f-hatch" }));
      shapes.push(shape("rect", { ...box, class: "s-hatch", "stroke-width": 0.8 }));
      if (left === silence.from)
        shapes.push(shape("text", { x: box.x, y: y + STRIP.height + 12 }, words.say("page.silence-go-on")));
    }
    const { landing } = silence;
    if (landing !== null && landing > from + 1e-6 && landing <= to + 1e-6)
      shapes.push(flag(x(landing), y - 5, y + STRIP.height + 3));
  }
  return shapes;
}

/** The pieces of a beat in which the band sounds. */
function sounding(score: Score, from: number, to: number): readonly (readonly [number, number])[] {
  const cut = silencesHeard(score).find((each) => each.from < to - 1e-6 && each.to > from + 1e-6);
  if (cut === undefined) return [[from, to]];
  const before = [from, Math.max(from, cut.from)] as const;
  const after = [Math.min(to, cut.to), to] as const;
  return [before, after].filter(([left, right]) => right - left > 1e-6);
}
