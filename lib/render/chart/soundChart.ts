import { scaleLinear } from "d3-scale";
import { grouped } from "../phrases.js";
import {
  type ChartOptions,
  type ChartText,
  chartDocument,
  type Drawn,
  type KeyEntry,
  marginOf,
  stacked,
  widthAsked,
} from "./chartDocument.js";
import { line, SIZE, widthOf } from "./lettering.js";
import { INK } from "./palette.js";
import { decimal, element, type Svg } from "./svg.js";
import { stroke, upright } from "./symbols.js";
import { type ChartWords, ENGLISH } from "./words.js";

/** A recording with its onsets, for a chart. */
export interface SoundPicture {
  /** Name of the recording. */
  readonly name: string;
  /** Length of the recording. */
  readonly seconds: number;
  /** Lowest and highest sample (full scale 1) of consecutive sections of equal length. */
  readonly peaks: readonly (readonly [low: number, high: number])[];
  /** Onsets, seconds from the start of the recording, in order. */
  readonly onsets: readonly number[];
  /** Timing noise of the onsets, standard deviation in milliseconds. */
  readonly noiseMs: number;
  /** Further advice, one sentence each. */
  readonly advice?: readonly string[];
}

/** Narrowest second, px, before another row is added, and most rows; our choice: eighth notes at 120 bpm are 8 px apart. */
const SECOND = 33;
const MOST_ROWS = 6;
const ROW_GAP = 24;
/** Height of the lane for onset marks below the envelope, px. */
const LANE = 12;
/** With onsets closer than this on average, px, no lines are drawn across the envelope: they would hide it. */
const CROWDED = 7;

/**
 * A recording as an SVG document: its envelope above a line, and below it a mark at each onset.
 *
 * Drawn at `width` px (280 to 2000) in at most six rows, whatever its length. The amplitude is scaled to the highest peak. The same input gives the same text. A silent
 * recording is a line. Throws `RangeError` for another width, and for a time that is not finite.
 *
 * @example soundChart({ name: "take.wav", seconds: 1, peaks: [[-0.2, 0.3], [-0.1, 0.1]], onsets: [0.02], noiseMs: 2 })
 */
export function soundChart(picture: SoundPicture, options: ChartOptions = {}): Svg {
  const width = widthAsked(options);
  const { words = ENGLISH } = options;
  if (!picture.onsets.every(Number.isFinite)) throw new RangeError("onsets are drawn at finite times only");
  const margin = marginOf(width);
  const rows = Math.max(1, Math.min(MOST_ROWS, Math.ceil((picture.seconds * SECOND) / (width - 2 * margin))));
  const frame: Frame = {
    words,
    left: margin,
    room: width - 2 * margin,
    height: rows === 1 ? 120 : rows < 4 ? 84 : 60,
    perRow: picture.seconds / rows || 1,
    loudest: Math.max(...scanned(picture.peaks), 1e-3),
  };
  const crowded = (frame.room * rows) / Math.max(1, picture.onsets.length) < CROWDED;
  const drawn = stacked(
    Array.from({ length: rows }, (_, row) => ({
      svg: rowOf(picture, row, { ...frame, crowded }),
      height: frame.height + LANE,
    })),
    ROW_GAP,
  );
  const body: Drawn = { svg: drawn.svg, height: drawn.height + SIZE.small + 5 };
  return chartDocument(wordsOf(picture, words), body, {
    width,
    key: keyOf(words).slice(0, picture.onsets.length > 0 ? 2 : 1),
  });
}

interface Frame {
  readonly words: ChartWords;
  readonly left: number;
  readonly room: number;
  readonly height: number;
  /** Seconds in a row. */
  readonly perRow: number;
  readonly loudest: number;
  readonly crowded?: boolean;
}

/** The highest absolute sample; a fold, because a long list does not fit in the arguments of one call. */
function scanned(peaks: SoundPicture["peaks"]): readonly number[] {
  return [peaks.reduce((most, [low, high]) => Math.max(most, -low, high), 0)];
}

function rowOf(
  picture: SoundPicture,
  row: number,
  { words, left, room, height, perRow, loudest, crowded }: Frame,
): Svg {
  const from = row * perRow;
  const x = scaleLinear([from, from + perRow], [left, left + room]);
  const wave = waveOf(picture, row, { words, left, room, height, perRow, loudest });
  const inside = picture.onsets.filter((at) => at >= from && (at < from + perRow || (at === from + perRow && row > 0)));
  // Onsets on the same half pixel share one mark.
  const places = [...new Set(inside.map((at) => Math.round(2 * x(at)) / 2))];
  const [top, foot] = [height + 2, height + LANE];
  const times = x.ticks(Math.max(2, Math.floor(room / 90)));
  let end = Number.NEGATIVE_INFINITY;
  const labels = times.flatMap((at) => {
    const text = timeText(at, words);
    const size = widthOf(text, { size: SIZE.small });
    const start = Math.max(left, Math.min(x(at) - size / 2, left + room - size));
    // The last label is moved inwards and must not overlap the one before.
    if (start < end + 6) return [];
    end = start + size;
    return [line(text, start, foot + SIZE.small + 4, { size: SIZE.small, fill: INK.muted })];
  });
  return (
    stroke(times.map((at) => upright(x(at), 0, foot)).join(""), INK.hair) +
    stroke(`M${decimal(left)} ${decimal(height)}h${decimal(room)}`, INK.muted, { width: 0.8 }) +
    element("path", { d: wave, fill: INK.hatch }) +
    (crowded ? "" : stroke(places.map((at) => upright(at, 0, height)).join(""), INK.beyond, { width: 0.8 })) +
    stroke(places.map((at) => upright(at, top, foot)).join(""), INK.beyond, { width: crowded ? 0.6 : 2 }) +
    labels.join("")
  );
}

/** The envelope of the recording above its line: for each pixel column the highest sample either way, at least 0.8 px high. */
function waveOf(picture: SoundPicture, row: number, { left, room, height, perRow, loudest }: Frame): string {
  const { peaks, seconds } = picture;
  const foot = `V${decimal(height)}H${decimal(left)}z`;
  if (peaks.length === 0) return `M${decimal(left)} ${decimal(height - 0.8)}h${decimal(room)}${foot}`;
  const perSecond = peaks.length / (seconds || 1);
  const columns = Math.floor(room);
  const tops: string[] = [];
  for (let column = 0; column <= columns; column++) {
    const at = (row + column / columns) * perRow * perSecond;
    const first = Math.min(peaks.length - 1, Math.floor(at));
    const last = Math.min(peaks.length, Math.max(first + 1, Math.ceil(at + (perRow * perSecond) / columns)));
    const highest = Math.max(...scanned(peaks.slice(first, last)));
    const y = height * (1 - (0.96 * highest) / loudest);
    tops.push(`${decimal(left + column)} ${decimal(Math.min(y, height - 0.8))}`);
  }
  return `M${tops.join("L")}${foot}`;
}

function wordsOf({ name, seconds, onsets, noiseMs, advice = [] }: SoundPicture, words: ChartWords): ChartText {
  const { say } = words;
  const heard = { count: onsets.length, shown: grouped(onsets.length) };
  const known = onsets.length === 0 ? [] : [say("chart.times-known", { ms: noiseMs })];
  const [first, last] = [onsets[0], onsets.at(-1)];
  return {
    title: say("chart.heard", { ...heard, length: timeText(Math.round(seconds * 10) / 10, words) }),
    subject: [say("chart.sentence", { text: name }), ...known, ...advice].join(" "),
    description: [
      say("chart.envelope", { ...heard, seconds }),
      ...(first === undefined || last === undefined ? [] : [say("chart.first-and-last", { first, last })]),
    ].join(" "),
  };
}

function keyOf({ say }: ChartWords): readonly KeyEntry[] {
  return [
    {
      mark: (x, y) => element("path", { d: `M${x} ${y}v-4l5 -6l5 7l5 -4l5 5v2z`, fill: INK.hatch }),
      means: say("chart.the-recording"),
    },
    {
      mark: (x, y) => stroke(upright(x + 10, y - 10, y), INK.beyond, { width: 2 }),
      means: say("chart.note-begins"),
    },
  ];
}

/** Seconds below a minute, then minutes and whole seconds. */
function timeText(seconds: number, { say }: ChartWords): string {
  if (seconds < 60) return say("chart.seconds", { seconds });
  const whole = Math.round(seconds);
  return say("chart.minutes", { clock: `${Math.floor(whole / 60)}:${`${whole % 60}`.padStart(2, "0")}` });
}
