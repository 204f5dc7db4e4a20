import type { ScaleLinear } from "d3-scale";
import { area } from "d3-shape";
import { silencesHeard } from "../../phrases.js";
import type { Drawn } from "../chartDocument.js";
import { line, SIZE, widthOf } from "../lettering.js";
import { INK } from "../palette.js";
import { isIn, overlap, type Span } from "../phrases.js";
import { decimal, element, type Svg } from "../svg.js";
import {
  addedMark,
  block,
  missedMark,
  returnMark,
  slants,
  stroke,
  through,
  upright,
  verdictInk,
  verdictMark,
} from "../symbols.js";
import { driftText } from "./description.js";
import { landingLost } from "./landingText.js";
import type { Place, TakePicture } from "./rows.js";
import { type BandPoint, bandIn } from "./rows.js";
import { toleranceMarks } from "./toleranceMarks.js";

export interface Frame {
  /** Left edge of the plot and its width, px. */
  readonly left: number;
  readonly room: number;
  readonly plot: number;
  /** Whether bars are too narrow for single notes, tolerances and flags. */
  readonly crowded: boolean;
  /** Pixels to a second. */
  readonly perSecond: number;
  /** Asynchrony, ms, to pixels below the top of the plot: late is up. */
  readonly y: ScaleLinear<number, number>;
}

const VERDICT_LANE = 20;
const MARK_LANE = 13;
/** Width of a verdict symbol, px. */
const MARK_ROOM = 13;

/** One row of a take: verdicts, the plot with silences and landings, and below it what was left out or added. */
export function takeRow(picture: TakePicture, row: Span, frame: Frame): Drawn {
  const { score, finding, played, words } = picture;
  const { left, plot, perSecond, y, crowded } = frame;
  const x = (at: number): number => left + (Math.min(row.to, Math.max(row.from, at)) - row.from) * perSecond;
  const right = x(row.to);
  const top = finding.dropouts.length === 0 ? 4 : VERDICT_LANE;
  const bottom = top + plot;
  const box = (span: Span): { x: number; y: number; width: number; height: number } => ({
    x: x(span.from),
    y: top,
    width: x(span.to) - x(span.from),
    height: plot,
  });
  const pieces: Svg[] = [];
  const silences = silencesHeard(score).filter((dropout) => overlap(dropout, row));
  const open = score.open.filter((each) => overlap(each, row));
  pieces.push(
    ...silences.map((dropout) => block(box(dropout), INK.still)),
    ...open.map((each) => block(box(each), INK.open)),
  );
  for (const dropout of silences) {
    if (dropout.silent && !crowded) pieces.push(stroke(slants(box(dropout), 9), INK.hatch, { width: 0.9 }));
  }
  for (const each of open) {
    const edge = `M${decimal(x(each.from))} ${decimal(bottom - 2)}H${decimal(x(each.to))}`;
    pieces.push(stroke(edge, INK.openEdge, { width: 2, dash: "2 3" }));
    const own = new Set(played.filter((at) => isIn(at, each) && isIn(at, row)).map((at) => Math.round(x(at))));
    pieces.push(
      stroke([...own].map((place) => upright(place, bottom - 11, bottom - 3)).join(""), INK.ink, { width: 1.5 }),
    );
  }
  pieces.push(grid(frame, { top, right }));
  if (crowded) pieces.push(crowd(picture, row, { x, top, y }));
  pieces.push(band(bandIn(picture.trace, row, Math.round(frame.room)), { x, top, y }));
  if (!crowded) pieces.push(toleranceMarks(picture, row, { x, top, y }), dots(picture, row, { x, top, y }));
  for (const { landing } of silencesHeard(score)) {
    // A landing at the end of a row is drawn at the start of the next row; only the last row shows one at its own end.
    const here =
      landing !== null &&
      (isIn(landing, row) || (row.to >= score.duration - 1e-6 && Math.abs(landing - row.to) < 1e-6));
    if (here)
      pieces.push(
        crowded
          ? stroke(upright(x(landing), top, bottom), INK.muted, { width: 0.8 })
          : returnMark(x(landing), top - 4, bottom),
      );
  }
  pieces.push(verdicts(picture, row, { x, right, left }));
  const bars = barNumbers(picture, row, { x, y: bottom + SIZE.small + 5, perSecond });
  pieces.push(stroke(`M${decimal(left)} ${decimal(bottom)}H${decimal(right)}`, INK.muted, { width: 0.8 }), bars);
  let height = bottom + SIZE.small + 8;
  const lane = (name: string, marks: string, ink: string): void => {
    height += MARK_LANE;
    pieces.push(
      line(name, left - 8, height - 3, { size: SIZE.small, fill: INK.muted, anchor: "end" }),
      stroke(marks, ink, { width: 1.5 }),
    );
  };
  const atPixels = (times: readonly number[]): number[] => [
    ...new Set(times.filter((at) => isIn(at, row)).map((at) => Math.round(x(at)))),
  ];
  const missed = atPixels(finding.missed.map((note) => score.expected[note]!.at));
  const added = atPixels(finding.added.map((onset) => played[onset]!));
  if (missed.length > 0)
    lane(
      words.say("chart.left-out"),
      missed
        .map((place) => (crowded ? upright(place, height + 3, height + 9) : missedMark(place, height + 6)))
        .join(""),
      INK.beyond,
    );
  if (added.length > 0)
    lane(
      words.say("chart.added"),
      added.map((place) => (crowded ? upright(place, height + 3, height + 9) : addedMark(place, height + 6))).join(""),
      INK.ink,
    );
  const lost = landingsLost(picture, row, { x, left, right });
  if (lost.length > 0) {
    height += MARK_LANE;
    pieces.push(
      line(words.say("chart.landing"), left - 8, height - 3, { size: SIZE.small, fill: INK.muted, anchor: "end" }),
    );
    for (const { place, text } of lost)
      pieces.push(
        stroke(upright(place, height - 11, height - 3), INK.beyond, { width: 1.5 }),
        text === "" ? "" : line(text, place + 4, height - 3, { size: SIZE.small, fill: INK.beyond }),
      );
  }
  return { svg: pieces.join(""), height };
}

/** Where the landings of a row were lost by a slip or left out, px, in words where there is room. */
function landingsLost(
  { score, finding, words }: TakePicture,
  row: Span,
  { x, right }: Lane,
): { readonly place: number; readonly text: string }[] {
  let free = Number.NEGATIVE_INFINITY;
  const last = row.to >= score.duration - 1e-6;
  return finding.dropouts.flatMap((dropout) => {
    const lost = landingLost(dropout, words);
    if (lost === "" || !(isIn(dropout.to, row) || (last && Math.abs(dropout.to - row.to) < 1e-6))) return [];
    const place = x(dropout.to);
    const wide = widthOf(lost, { size: SIZE.small });
    const fits = place >= free && place + 4 + wide <= right;
    if (fits) free = place + wide + 12;
    return [{ place, text: fits ? lost : "" }];
  });
}

function grid({ left, plot, y }: Frame, { top, right }: { readonly top: number; readonly right: number }): Svg {
  return y
    .ticks(plot < 100 ? 3 : 4)
    .map((ms) => {
      const at = top + y(ms);
      const rule = stroke(`M${decimal(left)} ${decimal(at)}H${decimal(right)}`, ms === 0 ? INK.muted : INK.hair, {
        width: ms === 0 ? 1 : 0.8,
      });
      return rule + line(`${Math.abs(ms)}`, left - 6, at + 4, { size: SIZE.small, fill: INK.muted, anchor: "end" });
    })
    .join("");
}

function band(points: readonly BandPoint[], { x, top, y }: Place): Svg {
  if (points.length < 2) return "";
  const shape = area<BandPoint>()
    .x(({ at }) => x(at))
    .y0(({ low }) => top + y(low))
    .y1(({ high }) => top + y(high))
    .digits(2)(points);
  const middle = through(points.map(({ at, mean }) => [x(at), top + y(mean)]));
  return (
    element("path", { d: shape ?? "", fill: INK.band, "fill-opacity": 0.85 }) +
    stroke(middle, INK.within, { width: 1.8 })
  );
}

interface Lane {
  readonly x: (at: number) => number;
  readonly left: number;
  readonly right: number;
}

/** The verdict symbol above each silence, with the drift where there is room. */
function verdicts({ finding, words }: TakePicture, row: Span, { x, left, right }: Lane): Svg {
  const own = finding.dropouts
    .map((each) => ({ ...each, middle: (each.from + each.to) / 2 }))
    .filter(({ middle }) => isIn(middle, row));
  const pieces: Svg[] = [];
  let free = left;
  own.forEach((each, i) => {
    const next = own[i + 1];
    const text = driftText(each, words);
    const wide = widthOf(text, { size: SIZE.small, bold: true });
    const whole = MARK_ROOM + wide + 4;
    const middle = x(each.middle);
    const from = Math.max(free, Math.min(right - whole, middle - whole / 2));
    const roomUntil = next === undefined ? right : x(next.middle) - MARK_ROOM / 2;
    if (from + whole <= roomUntil && from <= middle) {
      pieces.push(
        verdictMark(each.verdict, from + 6, 8),
        line(text, from + MARK_ROOM + 2, 12, { size: SIZE.small, bold: true, fill: verdictInk(each.verdict) }),
      );
      free = from + whole + 6;
    } else if (middle - MARK_ROOM / 2 >= free - 6) {
      pieces.push(verdictMark(each.verdict, Math.min(right - 6, middle), 8));
      free = middle + MARK_ROOM;
    }
  });
  return pieces.join("");
}

function barNumbers(
  { score, words }: TakePicture,
  row: Span,
  { x, y, perSecond }: { readonly x: (at: number) => number; readonly y: number; readonly perSecond: number },
): Svg {
  const own = score.bars.filter(({ at }) => isIn(at, row));
  if (own.length === 0) return "";
  const barWidth = ((row.to - row.from) * perSecond) / own.length;
  // Every bar, every second, every fourth ...: numbers are at least 30 px apart.
  let every = 1;
  while (every * barWidth < 30) every *= 2;
  const word = line(words.say("chart.bar"), x(row.from) - 14, y, { size: SIZE.small, fill: INK.muted, anchor: "end" });
  const numbers = own
    .filter(({ bar }) => (bar - 1) % every === 0)
    .map(({ bar, at }) => {
      const tick = stroke(upright(x(at), y - SIZE.small - 5, y - SIZE.small - 1), INK.muted, { width: 0.8 });
      return tick + line(`${bar}`, x(at), y, { size: SIZE.small, fill: INK.muted, anchor: "middle" });
    })
    .join("");
  return word + numbers;
}

/** A dot for every matched note; notes on the same pixel are drawn once. */
function dots(picture: TakePicture, row: Span, place: Place): Svg {
  const places = new Map<string, string>();
  for (const [px, py] of notesIn(picture, row, place)) {
    const [cx, cy] = [Math.round(px), Math.round(py)];
    places.set(`${cx} ${cy}`, `M${cx - 2} ${cy}a2 2 0 1 0 4 0a2 2 0 1 0 -4 0`);
  }
  return places.size === 0 ? "" : element("path", { d: [...places.values()].join(""), fill: INK.ink });
}

/** The range of the notes in every two pixel columns, for notes too close to be drawn one by one. */
function crowd(picture: TakePicture, row: Span, place: Place): Svg {
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
