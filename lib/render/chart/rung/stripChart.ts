import { beatAt } from "../../../base/index.js";
import type { Score } from "../../../schema/index.js";
import { grouped, silencesHeard } from "../../phrases.js";
import { type ChartOptions, chartDocument, type Drawn, type KeyEntry, marginOf, widthAsked } from "../chartDocument.js";
import { fitted, line, SIZE, widthOf } from "../lettering.js";
import { INK } from "../palette.js";
import { type AlikePhrases, alikePhrases, isIn, overlap, type Span } from "../phrases.js";
import { decimal, type Svg } from "../svg.js";
import { block, returnMark, stillness, stroke, upright } from "../symbols.js";
import { type ChartWords, ENGLISH } from "../words.js";
import { stripWords } from "./stripDescription.js";

const LANE = 15;
const LANE_GAP = 3;
const OWN_LANE = 19;
const HEADING = SIZE.small + 6;
const ROW_GAP = 12;
/** Narrowest bar in which sixteenths are visible, px. */
const NARROWEST_BAR = 60;
/** Most rows, so that the size of the drawing is bounded; our choice: two screens of a phone. */
const MOST_ROWS = 16;

/** A row of bars, or the count-in. */
interface Row extends Span {
  readonly heading: string;
  readonly bars: readonly Span[];
  readonly isCountIn: boolean;
}

/**
 * The score of a rung as an SVG document: the count-in, each part of the accompaniment with its silences, open bars, landings of the
 * accompaniment, and below them the onsets expected of the student. Consecutive phrases with the same content are drawn once.
 *
 * Drawn at `width` px (280 to 2000); at most 16 rows of bars are drawn, and what is left out is said. The same score gives the same text. Throws `RangeError`
 * for another width.
 *
 * @example stripChart(scoreOf(rungs(drill).at(0)), { width: 360 }).startsWith("<svg") // true
 */
export function stripChart(score: Score, options: ChartOptions = {}): Svg {
  const width = widthAsked(options);
  const { words = ENGLISH } = options;
  const margin = marginOf(width);
  const heard = score.parts.filter(({ does }) => does !== "off");
  const names = [...heard.map(({ name }) => name), words.say("chart.you"), words.say("chart.count")];
  const labels = Math.ceil(Math.min(84, Math.max(...names.map((name) => widthOf(name, { size: SIZE.small }))))) + 8;
  const left = margin + labels;
  const room = width - margin - left - 8;
  const { rows, left: undrawn } = rowsOf(score, room, words);
  const perSecond = room / Math.max(...rows.map(({ from, to }) => to - from));
  const pieces: Svg[] = [];
  let y = 0;
  for (const row of rows) {
    const drawn = rowDrawn(score, row, {
      words,
      left,
      perSecond,
      labels,
      names: heard.map(({ name }) => name),
      top: y,
    });
    pieces.push(drawn.svg);
    y += drawn.height + ROW_GAP;
  }
  if (undrawn > 0) {
    const text = words.say("chart.more-rows", { count: undrawn, shown: grouped(undrawn) });
    pieces.push(line(text, margin, y + SIZE.small, { size: SIZE.small, fill: INK.muted }));
    y += HEADING;
  }
  return chartDocument(
    stripWords(score, words),
    { svg: pieces.join(""), height: y - ROW_GAP },
    { width, key: keyOf(score, words) },
  );
}

function rowsOf(score: Score, room: number, words: ChartWords): { rows: Row[]; left: number } {
  const rows: Row[] = [];
  let left = 0;
  const add = (row: Row): void => {
    if (rows.length < MOST_ROWS) rows.push(row);
    else left++;
  };
  if (score.countIn > 0) add({ heading: "", bars: [], isCountIn: true, from: -score.countIn, to: 0 });
  for (const alike of alikePhrases(score)) {
    const { bars } = alike.phrase;
    const lines = Math.ceil(bars.length / Math.max(1, Math.floor(room / NARROWEST_BAR)));
    const perLine = Math.ceil(bars.length / lines);
    for (let i = 0; i < bars.length; i += perLine) {
      const own = bars.slice(i, i + perLine);
      const heading = i === 0 ? headingOf(alike, words) : "";
      add({ heading, bars: own, isCountIn: false, from: own[0]!.from, to: own.at(-1)!.to });
    }
  }
  return { rows, left };
}

function headingOf({ phrase, last }: AlikePhrases, { say }: ChartWords): string {
  const { number, isOutro } = phrase;
  if (isOutro) return say("chart.outro");
  return number === last ? say("chart.phrase", { number }) : say("chart.phrases-alike", { from: number, to: last });
}

interface Placing {
  readonly words: ChartWords;
  readonly left: number;
  readonly top: number;
  readonly perSecond: number;
  readonly labels: number;
  readonly names: readonly string[];
}

function rowDrawn(score: Score, row: Row, { words, left, top, perSecond, labels, names }: Placing): Drawn {
  const x = (at: number): number => left + (Math.min(row.to, Math.max(row.from, at)) - row.from) * perSecond;
  const lanes = row.isCountIn ? [words.say("chart.count")] : names;
  const own = !row.isCountIn || score.expected.some(({ at }) => at < 0);
  const heading = row.heading === "" ? 0 : HEADING;
  const start = top + heading;
  const ownTop = start + lanes.length * (LANE + LANE_GAP);
  const bottom = ownTop + (own ? OWN_LANE : -LANE_GAP);
  const pieces: Svg[] = [line(row.heading, left, top + SIZE.small, { size: SIZE.small, bold: true })];
  const label = (text: string, y: number, bold = false): Svg =>
    line(fitted(text, labels - 8, { size: SIZE.small, bold }), left - 8, y, {
      size: SIZE.small,
      bold,
      anchor: "end",
      fill: bold ? INK.ink : INK.muted,
    });
  lanes.forEach((name, i) => {
    const y = start + i * (LANE + LANE_GAP);
    pieces.push(label(name, y + LANE - 4));
    if (row.isCountIn) return;
    for (const dropout of score.dropouts) {
      if (!dropout.parts.includes(name) || !overlap(dropout, row)) continue;
      pieces.push(stillness({ x: x(dropout.from), y, width: x(dropout.to) - x(dropout.from), height: LANE }));
    }
  });
  if (own) {
    for (const open of score.open.filter((each) => overlap(each, row))) {
      const box = { x: x(open.from), y: ownTop, width: x(open.to) - x(open.from), height: OWN_LANE };
      const scale = fitted(open.scale, box.width - 6, { size: SIZE.small });
      pieces.push(
        block(box, INK.open),
        stroke(`M${decimal(box.x)} ${decimal(ownTop + OWN_LANE - 1)}h${decimal(box.width)}`, INK.openEdge, {
          width: 2,
          dash: "2 3",
        }),
      );
      pieces.push(line(scale, box.x + box.width / 2, ownTop + 12, { size: SIZE.small, anchor: "middle" }));
    }
    pieces.push(label(words.say("chart.you"), ownTop + OWN_LANE - 6, true));
  }
  pieces.push(beatLines(score, row, { x, from: start, to: bottom }));
  lanes.forEach((name, i) => {
    const y = start + i * (LANE + LANE_GAP);
    pieces.push(row.isCountIn ? counts(score, x, y) : sounding(score, name, { row, x, y }));
  });
  if (own) pieces.push(expected(score, { row, x, y: ownTop }));
  for (const { landing } of silencesHeard(score)) {
    if (landing === null || row.isCountIn) continue;
    // A landing at the start of a row is drawn at the end of the row before, in which the silence is.
    if (landing > row.from + 1e-6 && landing <= row.to + 1e-6) pieces.push(returnMark(x(landing), start - 4, bottom));
  }
  return { svg: pieces.join(""), height: bottom - top };
}

type Across = (at: number) => number;

function beatLines(
  score: Score,
  row: Row,
  { x, from, to }: { readonly x: Across; readonly from: number; readonly to: number },
): Svg {
  const beats: string[] = [];
  for (const bar of row.bars) {
    // Beats closer than 6 px would be a grey area.
    const beat = beatAt(score, bar.from);
    if ((x(bar.to) - x(bar.from)) * (beat / (bar.to - bar.from)) < 6) continue;
    for (let at = bar.from + beat; at < bar.to - 1e-6; at += beat) beats.push(upright(x(at), to - 3, to));
  }
  const bars = row.isCountIn ? [] : [...row.bars.map((bar) => bar.from), row.to].map((at) => upright(x(at), from, to));
  const floor = `M${decimal(x(row.from))} ${decimal(to)}H${decimal(x(row.to))}`;
  return stroke(bars.join(""), INK.hair) + stroke(beats.join("") + floor, INK.muted, { width: 0.8 });
}

/** A rectangle for each sounding note; notes on the same pixel are drawn once. */
function sounding(
  score: Score,
  name: string,
  { row, x, y }: { readonly row: Row; readonly x: Across; readonly y: number },
): Svg {
  const notes = score.parts.find((part) => part.name === name)?.notes ?? [];
  const longest = new Map<number, number>();
  for (const { at, seconds, voice } of notes) {
    if (!isIn(at, row)) continue;
    const from = Math.round(2 * x(at)) / 2;
    const length = voice === undefined ? Math.max(2, x(at + seconds) - x(at) - 1.5) : 2;
    longest.set(from, Math.max(length, longest.get(from) ?? 0));
  }
  const bars = [...longest].map(
    ([from, length]) => `M${decimal(from)} ${decimal(y + 4)}h${decimal(length)}v7h${decimal(-length)}z`,
  );
  return bars.length === 0 ? "" : `<path d="${bars.join("")}" fill="${INK.sound}"/>`;
}

function counts(score: Score, x: Across, y: number): Svg {
  const beats: string[] = [];
  for (let n = 1; n * score.beat <= score.countIn + 1e-6; n++)
    beats.push(`M${decimal(x(-n * score.beat))} ${decimal(y + 2)}v11`);
  return stroke(beats.join(""), INK.sound, { width: 2.5 });
}

/** The onsets expected of the student as vertical strokes; accented ones are taller. */
function expected(score: Score, { row, x, y }: { readonly row: Row; readonly x: Across; readonly y: number }): Svg {
  const strokes = new Map<number, boolean>();
  for (const { at, accent } of score.expected) {
    const here = row.isCountIn ? at < 0 : isIn(at, row);
    const place = Math.round(2 * x(at)) / 2;
    if (here) strokes.set(place, (strokes.get(place) ?? false) || accent === true);
  }
  const path = (tall: boolean): string =>
    [...strokes]
      .filter(([, accent]) => accent === tall)
      .map(([place]) => upright(place + 1, y + (tall ? 2 : 7), y + OWN_LANE))
      .join("");
  return stroke(path(false), INK.within, { width: 2.2 }) + stroke(path(true), INK.within, { width: 3 });
}

function keyOf(score: Score, { say }: ChartWords): KeyEntry[] {
  const sounds: KeyEntry = {
    mark: (x, y) => block({ x, y: y - 9, width: 18, height: 7 }, INK.sound),
    means: say("chart.sounds"),
  };
  const yours: KeyEntry = {
    mark: (x, y) =>
      stroke(upright(x + 5, y - 9, y), INK.within, { width: 2.2 }) +
      stroke(upright(x + 14, y - 12, y), INK.within, { width: 3 }),
    means: say("chart.you-play"),
  };
  const silent: KeyEntry = {
    mark: (x, y) => stillness({ x, y: y - 11, width: 20, height: 11 }),
    means: say("chart.silent"),
  };
  const returns: KeyEntry = { mark: (x, y) => returnMark(x + 6, y - 12, y), means: say("chart.landing") };
  const open: KeyEntry = {
    mark: (x, y) =>
      block({ x, y: y - 11, width: 20, height: 11 }, INK.open) +
      stroke(`M${decimal(x)} ${decimal(y - 1)}h20`, INK.openEdge, { width: 2, dash: "2 3" }),
    means: say("chart.yours-in-scale"),
  };
  const silences = silencesHeard(score);
  const isSilent = silences.length > 0;
  const comesBack = silences.some(({ landing }) => landing !== null);
  return [
    sounds,
    yours,
    ...(isSilent ? [silent] : []),
    ...(comesBack ? [returns] : []),
    ...(score.open.length > 0 ? [open] : []),
  ];
}
