import { INK } from "../palette.js";
import { isIn, type Span } from "../phrases.js";
import { element, type Svg } from "../svg.js";
import { stroke, upright } from "../symbols.js";
import type { Place, TakePicture } from "./rows.js";

/** A dot for every matched note; notes on the same pixel are drawn once. */
export function dots(picture: TakePicture, row: Span, place: Place): Svg {
  const places = new Map<string, string>();
  for (const [px, py] of notesIn(picture, row, place)) {
    const [cx, cy] = [Math.round(px), Math.round(py)];
    places.set(`${cx} ${cy}`, `M${cx - 2} ${cy}a2 2 0 1 0 4 0a2 2 0 1 0 -4 0`);
  }
  return places.size === 0 ? "" : element("path", { d: [...places.values()].join(""), fill: INK.ink });
}

/** The range of the notes in every two pixel columns, for notes too close to be drawn one by one. */
export function crowd(picture: TakePicture, row: Span, place: Place): Svg {
  const columns = new Map<number, [number, number]>();
  for (const [px, py] of notesIn(picture, row, place)) {
    const column = 2 * Math.round(px / 2);
    const [from, to] = columns.get(column) ?? [py, py];
    columns.set(column, [Math.min(from, py), Math.max(to, py)]);
  }
  return stroke([...columns].map(([column, [from, to]]) => upright(column, from - 1, to + 1)).join(""), INK.hatch, {
    width: 1.4,
  });
}

function notesIn({ score, finding, played }: TakePicture, row: Span, { x, top, y }: Place): [number, number][] {
  return finding.pairs.flatMap(([note, onset]): [number, number][] => {
    const { at } = score.expected[note]!;
    return isIn(at, row) ? [[x(at), top + y(1000 * (played[onset]! - at))]] : [];
  });
}
