import {
  type Drill,
  PARAMETERS,
  parseSettings,
  type Rung,
  rungNumber,
  rungs,
  type Settings,
  settingsText,
} from "../../../drill/index.js";
import { grouped, settingsWords } from "../../phrases.js";
import { type ChartOptions, type ChartText, chartDocument, marginOf, widthAsked } from "../chartDocument.js";
import { fitted, line, SIZE, widthOf } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { block, slants, stroke, through, upright } from "../symbols.js";
import { type ChartWords, ENGLISH, listed } from "../words.js";
import { type Lane, lanesOf } from "./ladderLanes.js";

export interface LadderChartOptions extends ChartOptions {
  /** The rung the student is on: its index (from 0), or its settings as a standing has them. */
  readonly at?: number | string;
}

const PLOT = 40;
const LANE_GAP = 14;
const HEADING = SIZE.text + 8;

/**
 * The ladders of a drill over all its rungs, as an SVG document: when each parameter climbs, where it starts again, and the rung of the student.
 * The cost depends on the number of pixels, not of rungs.
 *
 * `width` in px (280 to 2000). The same drill gives the same text. A drill without ladders has one rung and says so. Throws `RangeError` for
 * another width, or when `at` is not a rung of the drill.
 *
 * @example ladderChart(drill, { at: standing.drills[0].rung, width: 360 })
 */
export function ladderChart(drill: Drill, options: LadderChartOptions = {}): Svg {
  const width = widthAsked(options);
  const { words = ENGLISH } = options;
  const margin = marginOf(width);
  const room = Math.floor(width - 2 * margin);
  const all = rungs(drill);
  const at = options.at === undefined ? undefined : rungAt(drill, options.at);
  const lanes = lanesOf(drill, room);
  const x = (index: number): number => margin + (index / all.count) * room;
  const pieces: Svg[] = [];
  let y = 0;
  lanes.forEach((lane, i) => {
    const now = at?.settings[lane.parameter];
    pieces.push(laneHeading(lane, { words, number: i + 1, now, left: margin, room, y }));
    pieces.push(lanePlot(lane, { words, left: margin, room, top: y + HEADING, here: at && x(at.index + 0.5) }));
    y += HEADING + PLOT + LANE_GAP;
  });
  if (at !== undefined && lanes.length > 0) {
    const here = x(at.index + 0.5);
    lanes.forEach((_, i) => {
      const top = HEADING + i * (HEADING + PLOT + LANE_GAP);
      pieces.push(stroke(upright(here, top - 3, top + PLOT + 3), INK.paper, { width: 4 }));
      pieces.push(stroke(upright(here, top - 3, top + PLOT + 3), INK.ink, { width: 1.8 }));
    });
    pieces.push(element("path", { d: `M${decimal(here)} ${decimal(y - LANE_GAP + 4)}l5 8h-10z`, fill: INK.ink }));
  }
  pieces.push(
    axis(all.count, at, {
      words,
      left: margin,
      room,
      y: y + (at === undefined ? -4 : 2),
      here: at && x(at.index + 0.5),
    }),
  );
  const height = y + SIZE.small + 8;
  return chartDocument(wordsOf(drill, at, words), { svg: pieces.join(""), height }, { width, key: [] });
}

function rungAt(drill: Drill, at: number | string): Rung {
  const all = rungs(drill);
  if (typeof at === "number") return all.at(at);
  const settings = parseSettings(at);
  const index = settings.ok ? all.indexOf(settings.value as Settings) : undefined;
  if (index === undefined)
    throw new RangeError(`drill ${drill.name} has no rung with the settings ${JSON.stringify(at)}`);
  return all.at(index);
}

interface Heading {
  readonly words: ChartWords;
  readonly number: number;
  readonly now: string | undefined;
  readonly left: number;
  readonly room: number;
  readonly y: number;
}

/** The heading of a lane, "1  tempo  76 to 92", with the student's value at the right. */
function laneHeading(lane: Lane, { words, number, now, left, room, y }: Heading): Svg {
  const { say } = words;
  const name = `${number}  ${say("setting.name", { parameter: lane.parameter })}`;
  const nameWidth = widthOf(name, { bold: true }) + 8;
  const { count, lowest, highest } = lane;
  const range = count === 1 ? say("chart.always", { value: lowest }) : say("chart.from-to", { lowest, highest });
  const whole = count === 1 ? range : say("chart.from-to-of", { lowest, highest, count, shown: grouped(count) });
  const wide = (text: string): number => (text === "" ? 0 : widthOf(text, { bold: true }) + 10);
  const told = now === undefined ? "" : fitted(say("chart.now", { value: now }), room / 2, { bold: true });
  // The value is bold, and so is known for the present one, where the word has no room beside the range.
  const isRoom = widthOf(range, { size: SIZE.small }) <= room - nameWidth - wide(told);
  const here = isRoom || now === undefined ? told : fitted(now, room / 2, { bold: true });
  const rest = room - nameWidth - wide(here);
  const shown = widthOf(whole, { size: SIZE.small }) <= rest ? whole : fitted(range, rest, { size: SIZE.small });
  return (
    line(name, left, y + SIZE.text, { bold: true }) +
    line(shown, left + nameWidth, y + SIZE.text, {
      size: SIZE.small,
      fill: INK.muted,
    }) +
    line(here, left + room, y + SIZE.text, { bold: true, anchor: "end" })
  );
}

interface Plot {
  readonly words: ChartWords;
  readonly left: number;
  readonly room: number;
  readonly top: number;
  readonly here: number | undefined;
}

function lanePlot(lane: Lane, { words, left, room, top, here = left }: Plot): Svg {
  const floor = `M${decimal(left)} ${decimal(top + PLOT)}h${decimal(room)}`;
  if (lane.steps === undefined) {
    const box = { x: left, y: top + 6, width: room, height: PLOT - 6 };
    // The text is on that side of the student's rung that has more room.
    const [from, to] = here - left > room / 2 ? [left, here] : [here, left + room];
    const times = words.say("chart.times", { count: lane.rounds, shown: grouped(lane.rounds) });
    const text = fitted(words.say("chart.goes-round", { times }), to - from - 24, { size: SIZE.small });
    const wide = widthOf(text, { size: SIZE.small }) + 12;
    const middle = (from + to) / 2;
    return (
      block(box, INK.still) +
      stroke(slants(box, 5), INK.hatch, { width: 0.9 }) +
      block({ x: middle - wide / 2, y: top + PLOT / 2 - 7, width: wide, height: 19 }, INK.paper) +
      line(text, middle, top + PLOT / 2 + 7, { size: SIZE.small, anchor: "middle" }) +
      stroke(floor, INK.muted, { width: 0.8 })
    );
  }
  const { steps } = lane;
  // The lowest value is a little above the base line, so that every rung is visible as a step.
  const y = (step: number): number => top + PLOT - 6 - (lane.count === 1 ? 0 : (step / (lane.count - 1)) * (PLOT - 6));
  const x = (column: number): number => left + (column / steps.length) * room;
  const corners: [number, number][] = [];
  steps.forEach((step, column) => {
    if (column > 0 && steps[column - 1] === step) return;
    if (column > 0) corners.push([x(column), corners.at(-1)![1]]);
    corners.push([x(column), y(step)]);
  });
  corners.push([left + room, corners.at(-1)![1]]);
  const area = `${through(corners)}V${decimal(top + PLOT)}H${decimal(left)}z`;
  return (
    element("path", { d: area, fill: INK.band }) +
    stroke(through(corners), INK.within, { width: 1.8 }) +
    stroke(floor, INK.muted, { width: 0.8 })
  );
}

interface AxisPlace {
  readonly words: ChartWords;
  readonly left: number;
  readonly room: number;
  readonly y: number;
  readonly here: number | undefined;
}

/** The axis labels: first and last rung, and the student's rung between them; a label without room is left out. */
function axis(count: number, at: Rung | undefined, { words, left, room, y, here }: AxisPlace): Svg {
  const rung = (number: number): string => words.say("chart.rung", { shown: grouped(number) });
  const lettering = { size: SIZE.small, fill: INK.muted } as const;
  const base = y + SIZE.small + (at === undefined ? 0 : 3);
  if (count === 1) return line(words.say("chart.only-rung"), left, base, lettering);
  const [first, last] = [rung(1), rung(count)];
  if (at === undefined || here === undefined)
    return line(first, left, base, lettering) + line(last, left + room, base, { ...lettering, anchor: "end" });
  const own = rung(rungNumber(at));
  const half = widthOf(own, { size: SIZE.small, bold: true }) / 2;
  const middle = Math.min(left + room - half, Math.max(left + half, here));
  const fitsLeft = middle - half > left + widthOf(first, lettering) + 10;
  const fitsRight = middle + half < left + room - widthOf(last, lettering) - 10;
  return (
    (fitsLeft ? line(first, left, base, lettering) : "") +
    line(own, middle, base, { size: SIZE.small, bold: true, anchor: "middle" }) +
    (fitsRight ? line(last, left + room, base, { ...lettering, anchor: "end" }) : "")
  );
}

function wordsOf(drill: Drill, at: Rung | undefined, words: ChartWords): ChartText {
  const { say } = words;
  const { count } = rungs(drill);
  const order = orderText(drill, words);
  const always = settingsWords(settingsText(drill.fixed), words);
  const fixed = always === "" ? [] : [say("chart.always", { value: always })];
  return {
    title: titleOf(drill, at, words),
    subject: say("chart.sentence", {
      text: [drill.name, ...(at === undefined || count === 1 ? [] : [order]), ...fixed].join("; "),
    }),
    description: [
      say("chart.drill", { drill: drill.name, count, shown: grouped(count) }),
      ...drill.ladders.map((_, i) => ladderText(drill, i, words)),
      ...(at === undefined
        ? []
        : [
            say("chart.student-on", {
              shown: grouped(rungNumber(at)),
              settings: settingsWords(settingsText(at.settings), words),
            }),
          ]),
    ].join(" "),
  };
}

function titleOf(drill: Drill, at: Rung | undefined, words: ChartWords): string {
  const { say } = words;
  const all = rungs(drill);
  const { count } = all;
  if (at === undefined)
    return say("chart.rungs-and-order", { count, shown: grouped(count), order: orderText(drill, words) });
  const next = all.next(at);
  if (next !== undefined) {
    const left = count - 1 - at.index;
    return say("chart.to-go", { count: left, shown: grouped(left), changes: listed(changed(at, next, words), words) });
  }
  if (count === 1) return say("chart.one-rung-only");
  return say("chart.top-rung", { shown: grouped(count), title: drill.title ?? drill.name });
}

/** Which ladder climbs first, and which then. */
function orderText(drill: Drill, { say }: ChartWords): string {
  const climbs = drill.ladders
    .filter(({ count }) => count > 1)
    .map(({ parameter }) => say("setting.name", { parameter }));
  const [first, second, ...others] = climbs;
  if (first === undefined) return say("chart.nothing-climbs");
  if (second === undefined) return say("chart.climbs", { parameter: first });
  return others.reduce<string>(
    (before, next) => say("chart.then", { before, next }),
    say("chart.climbs-first", { first, next: second }),
  );
}

function ladderText({ ladders }: Drill, i: number, { say }: ChartWords): string {
  const { parameter, count, restart } = ladders[i]!;
  const spoken = { number: i + 1, parameter: say("setting.name", { parameter }), count, shown: grouped(count) };
  if (i === ladders.length - 1) return say("chart.ladder", spoken);
  if (restart === "bottom") return say("chart.ladder-again", spoken);
  return say("chart.ladder-back", { ...spoken, below: restart, belowShown: grouped(restart) });
}

/** The settings that differ on another rung: "silence 1/2 bar", "tempo 84". */
function changed(from: Rung, to: Rung, { say }: ChartWords): string[] {
  return PARAMETERS.flatMap((parameter) => {
    const value = to.settings[parameter];
    const differs = value !== undefined && value !== from.settings[parameter];
    return differs ? [say("setting.one", { parameter, name: parameter, value })] : [];
  });
}
