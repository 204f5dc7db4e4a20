import { success } from "../../base/index.js";
import { type Rung, titleOf } from "../../drill/index.js";
import type { Score } from "../../schema/index.js";
import { wordInstrument } from "../../words/index.js";
import { INK } from "../chart/palette.js";
import type { Svg } from "../chart/svg.js";
import { block, returnMark, stillness } from "../chart/symbols.js";
import { rungWords } from "../fileWords.js";
import { capital } from "../phrases.js";
import type { Result } from "../problem.js";
import type { Face, Mark as SheetMark } from "../sheet/drawing.js";
import type { Engraver } from "../sheet/engraving/engraver.js";
import { lettersMissing } from "../sheet/layOutSheet.js";
import { outlined, type RiffPicture, riffPictures } from "../sheet/riff/riffPictures.js";
import type { Player } from "../sheet/sheetReader.js";
import { inlineDrawing } from "../sheet/svg.js";
import { openTypeface, type SheetFonts, type Typeface } from "../sheet/typeface.js";
import type { FilmWords } from "./captions.js";
import { isDemonstration } from "./frames.js";
import type { Mark } from "./paintMark.js";
import { barAt } from "./riffPlaces.js";
import type { Screen } from "./screenAt.js";
import { STRIP, stripUnder } from "./stripUnder.js";

/** Width and height of a film, pixels; both even. */
export interface FilmSize {
  readonly width: number;
  readonly height: number;
}

/** The pictures of a film: drawn once for each phrase, and the mark that is painted into them. */
export interface FilmDrawing {
  readonly size: FilmSize;
  /** The picture of a phrase of the take, from 1, without the mark: an SVG document without text, so that it looks alike wherever it is drawn. */
  readonly phrase: (number: number) => string;
  /** The mark on what a frame shows; `undefined` for a riff without bars. */
  readonly mark: (shown: Pick<Screen, "at" | "phase">) => Mark | undefined;
  /** Colour of the mark. */
  readonly ink: string;
}

export interface FilmOptions {
  /** The student's instrument; at concert pitch without. */
  readonly player: Player | undefined;
  readonly engraver: Engraver;
  readonly fonts: SheetFonts;
  readonly words: FilmWords;
  readonly size: FilmSize;
  /** Title of the course. */
  readonly course: string;
}

/** Sizes of letters, margins and gaps in thousandths of the shorter side; our choice: legible on a phone held upright. */
const SIZE = { title: 52, text: 30, phrase: 36, key: 26 } as const;
const MARGIN = 60;
const GAP = 26;
/** Widths in points that a riff is engraved for; the one that fills the film best is taken. */
const WIDTHS = [170, 215, 270, 340, 430, 540, 680, 860, 1080] as const;
/** Largest factor from points to thousandths of the shorter side; our choice: a staff is at most a tenth of it high. */
const LARGEST = 4.6;
/** The mark in the units of the riff, as on the practice page: its triangle above a system, and the line down past the strip. */
const MARK = { over: 12, tip: 3, half: 6, line: 1.3, under: 4 } as const;
/** From one line of a hatching to the next, in the units of the riff. */
const HATCH = 4;
/** Most lines of a title. */
const MOST_LINES = 2;

/** Lays out a film: see `filmDrawing`. */
export function layOutFilm(rung: Rung, score: Score, options: FilmOptions): Result<FilmDrawing> {
  const { size, fonts, words } = options;
  const type = openTypeface(fonts);
  if (!type.ok) return type;
  const unit = Math.min(size.width, size.height) / 1000;
  const head = headOf(rung, score, { ...options, type: type.value, unit });
  const top = head.bottom + (SIZE.phrase + 2 * GAP + MARK.over * LARGEST) * unit;
  const room = {
    width: size.width - 2 * MARGIN * unit,
    height: size.height - top - (MARGIN + SIZE.key + GAP) * unit,
  };
  const found = largestRiff(rung, options, room);
  if (!found.ok) return found;
  const riff = found.value;
  const scale = Math.min(scaleOf(riff, room), LARGEST * unit);
  const left = (size.width - riff.width * scale) / 2;
  const upper = top + Math.max(0, room.height - riff.height * scale) / 2;
  const placed = (svg: Svg): Svg => `<g transform="translate(${left} ${upper}) scale(${scale})">${svg}</g>`;
  const key = keyOf({ type: type.value, unit, size, words });
  const below = placed(riff.svg);
  const drawing: FilmDrawing = {
    size,
    ink: INK.within,
    phrase(number) {
      const isOutro = number > rung.drill.phrases;
      const name = capital(isOutro ? words.say("chart.outro") : words.say("chart.phrase", { number }));
      const at = { x: MARGIN * unit, y: head.bottom + (GAP + SIZE.phrase) * unit };
      const label = type.value.line(name, { ...at, face: "bold", size: SIZE.phrase * unit, ink: INK.within });
      const said = inlineDrawing(outlined([...head.marks, ...label, ...key.marks], type.value), "said-");
      return documentOf(size, said + key.svg + below + placed(stripOf(score, riff, number)));
    },
    mark(shown) {
      const place = markOn(score, riff, shown);
      return place && inPixels(place, { left, upper, scale });
    },
  };
  // They are drawn by a font of the machine.
  return success(drawing, lettersMissing([head, key], type.value));
}

/** The riff of a rung in the width in which it comes out largest. */
function largestRiff(rung: Rung, { player, ...options }: FilmOptions, room: FilmSize): Result<RiffPicture> {
  // A drill on which nothing climbs has one form.
  const drill = { ...rung.drill, ladders: [], fixed: rung.settings };
  let best: RiffPicture | undefined;
  for (const width of WIDTHS) {
    const made = riffPictures(drill, player, { ...options, width, letters: "outlines" });
    if (!made.ok) return made;
    const riff = made.value[0]!;
    if (best === undefined || scaleOf(riff, room) > scaleOf(best, room)) best = riff;
  }
  return success(best!);
}

function scaleOf(riff: RiffPicture, room: FilmSize): number {
  return Math.min(room.width / riff.width, room.height / riff.height);
}

interface Saying {
  readonly type: Typeface;
  /** A thousandth of the shorter side, pixels. */
  readonly unit: number;
}

/** Title, and what is heard in which version for whom. */
function headOf(
  { drill }: Rung,
  { rung, mix }: Score,
  { type, unit, size, words, course, player }: Saying & FilmOptions,
): { readonly marks: readonly SheetMark[]; readonly bottom: number } {
  const marks: SheetMark[] = [];
  let y = MARGIN * unit;
  const put = (text: string, face: Face, letters: number, ink: string): void => {
    const width = size.width - 2 * MARGIN * unit;
    for (const line of type.lines(text, { face, size: letters, width }).slice(0, MOST_LINES)) {
      y += letters;
      marks.push(...type.line(line, { x: MARGIN * unit, y, face, size: letters, ink }));
      y += letters * 0.25;
    }
  };
  put(titleOf(drill), "bold", SIZE.title * unit, INK.ink);
  const version = words.say("sound.title", { drill: course, rung: rungWords(rung, words), mix });
  put(version, "regular", SIZE.text * unit, INK.muted);
  if (player !== undefined) put(wordInstrument(player.instrument.name, words), "italic", SIZE.text * unit, INK.muted);
  return { marks, bottom: y };
}

/** What filled, hatched and flagged mean, drawn as the strip draws them. */
function keyOf({ type, unit, size, words }: Saying & { readonly size: FilmSize; readonly words: FilmWords }): {
  readonly marks: readonly SheetMark[];
  readonly svg: Svg;
} {
  const letters = SIZE.key * unit;
  const [wide, height] = [16, STRIP.height];
  const scale = (0.9 * letters) / height;
  const y = size.height - MARGIN * unit;
  const entries = [
    { svg: block({ x: 0, y: 0, width: wide, height }, INK.sound), means: words.say("chart.sounds") },
    { svg: stillness({ x: 0, y: 0, width: wide, height }, HATCH), means: words.say("chart.silent") },
    { svg: returnMark(wide / 2, -3, height), means: words.say("chart.landing") },
  ];
  const marks: SheetMark[] = [];
  const drawn: Svg[] = [];
  let x = MARGIN * unit;
  for (const { svg, means } of entries) {
    drawn.push(`<g transform="translate(${x} ${y - height * scale}) scale(${scale})">${svg}</g>`);
    x += wide * scale + 0.5 * letters;
    marks.push(...type.line(means, { x, y, face: "regular", size: letters, ink: INK.muted }));
    x += type.width(means, "regular", letters) + 1.6 * letters;
  }
  return { marks, svg: drawn.join("") };
}

/** The strip under each system, in the units of the riff. */
function stripOf(score: Score, { bars }: RiffPicture, phrase: number): Svg {
  const { height } = STRIP;
  return stripUnder(score, bars, phrase)
    .map(({ y, sounding, silent, landings }) =>
      [
        ...sounding.map((beat) => block({ ...beat, y, height }, INK.sound)),
        ...silent.map((box) => stillness({ ...box, y, height }, HATCH)),
        ...landings.map((x) => returnMark(x, y - 5, y + height + 3)),
      ].join(""),
    )
    .join("");
}

function markOn(score: Score, { bars }: RiffPicture, { at, phase }: Pick<Screen, "at" | "phase">): Mark | undefined {
  const bar = barAt(score, bars, at);
  if (bar === undefined) return undefined;
  const { top, bottom } = bar.place;
  const { over, tip, half, line, under } = MARK;
  const low = bottom + STRIP.below + STRIP.height + under;
  const waits = phase !== "band" && !isDemonstration(score);
  return { x: bar.x(at), top: top - over, tip: top - tip, bottom: low, half, line, waits };
}

function inPixels(
  { x, top, tip, bottom, half, line, waits }: Mark,
  { left, upper, scale }: { readonly left: number; readonly upper: number; readonly scale: number },
): Mark {
  const down = (y: number): number => upper + y * scale;
  return {
    x: left + x * scale,
    top: down(top),
    tip: down(tip),
    bottom: down(bottom),
    half: half * scale,
    line: line * scale,
    waits,
  };
}

function documentOf({ width, height }: FilmSize, content: Svg): Svg {
  return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" color="${INK.ink}"><rect width="${width}" height="${height}" fill="${INK.paper}"/>${content}</svg>`;
}
