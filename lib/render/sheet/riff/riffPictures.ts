import { success } from "../../../base/index.js";
import type { Drill } from "../../../drill/index.js";
import type { Result } from "../../problem.js";
import { type Mark, movedBy } from "../drawing.js";
import type { Engraver } from "../engraving/engraver.js";
import type { SystemText } from "../engraving/readEngraving.js";
import { textsOver } from "../engraving/textAboveStaff.js";
import type { Player } from "../sheetReader.js";
import { inlineDrawing } from "../svg.js";
import { openTypeface, type SheetFonts, type Typeface } from "../typeface.js";
import { ENGLISH, type SheetWords } from "../words.js";
import { type DrawnForm, drawForms } from "./riffBlocks.js";
import { formsOf, formText } from "./riffForms.js";
import { stripBars } from "./silenceStrip.js";

/** A form of the riff engraved for a screen: an SVG element, and where time lies on it. */
export interface RiffPicture {
  /** Which form: `formText` of a rung's settings. */
  readonly form: string;
  /** An SVG element to stand in a page, black in the colour of the text around it, room for a strip under each system. */
  readonly svg: string;
  /** Width and height of the drawing, px. */
  readonly width: number;
  readonly height: number;
  /** The bars of the riff, pick-up excluded, in order. */
  readonly bars: readonly PictureBar[];
}

export interface PictureBar {
  /** As the score numbers it, from 1. */
  readonly bar: number;
  /** Highest and lowest edge of its system, px. */
  readonly top: number;
  readonly bottom: number;
  /** Shares of the bar's time (0 to 1) and their x coordinates, px; the first is its start, the last its end. */
  readonly anchors: readonly (readonly [share: number, x: number])[];
}

export interface RiffPictureOptions {
  readonly engraver: Engraver;
  readonly fonts: SheetFonts;
  /** Widest drawing, px. */
  readonly width: number;
  readonly words?: SheetWords;
  /** Letters as text in the font of the page around, or as outlines, which need none; text when left out. */
  readonly letters?: "text" | "outlines";
}

/** Room under each system for a strip of what sounds and what is silent, px. */
const STRIP_ROOM = 34;
/** White space between systems, px; our choice. */
const GAP = 12;

/**
 * Engraves each form of a drill's riff for the screen, for a player; without a player at concert pitch. One px is one point of a sheet. The
 * same arguments give the same text.
 *
 * Problems: FONT_NOT_READ, ENGRAVING_FAILED, and those of the notation.
 *
 * @example
 * const pictures = riffPictures(drill, drill.players[0], { engraver, fonts, width: 328 });
 */
export function riffPictures(
  drill: Drill,
  player: Player | undefined,
  { engraver, fonts, width, words = ENGLISH, letters = "text" }: RiffPictureOptions,
): Result<readonly RiffPicture[]> {
  const type = openTypeface(fonts);
  if (!type.ok) return type;
  const drawn = drawForms(drill, player, { engraver, width, words });
  if (!drawn.ok) return drawn;
  const forms = formsOf(drill);
  const setting = { type: type.value, letters };
  return success(drawn.value.map((form, i) => pictureOf(form, formText(forms[i]!.settings), setting)));
}

function pictureOf(
  { bars: all, riff, chords }: DrawnForm,
  form: string,
  { type, letters }: { readonly type: Typeface; readonly letters: "text" | "outlines" },
): RiffPicture {
  const marks: Mark[] = [];
  const bars: PictureBar[] = [];
  const lengths = new Map(all.map(({ number, length }) => [Number(number), length.n / length.d]));
  const printed = riff.systems.flatMap(({ texts }) => texts.filter(({ kind }) => kind === "chord")).length;
  let next = 0;
  let chord = 0;
  let y = 0;
  // The positions of chord symbols are the engraver's, their texts the author's where the engraver prints all of them.
  const said = (text: SystemText): string =>
    text.kind === "chord" && printed === chords.length ? chords[chord++]! : text.text;
  for (const system of riff.systems) {
    const texts = textsOver(system, said, { type });
    const highest = Math.min(system.top, ...texts.map((mark) => mark.y - mark.size * 0.8));
    const bottom = y - highest + Math.max(system.bottom, ...texts.map((mark) => mark.y + 3));
    marks.push(...movedBy([...system.marks, ...texts], 0, y - highest));
    for (const { number, anchors } of stripBars(system, all, next))
      bars.push({
        bar: number,
        top: tenth(y),
        bottom: tenth(bottom),
        anchors: anchors.map(({ at, x }) => [hundredth(at / lengths.get(number)!), tenth(x)] as const),
      });
    next += system.bars.length;
    y = bottom + STRIP_ROOM + GAP;
  }
  const width = Math.ceil(Math.max(0, ...bars.map(({ anchors }) => anchors.at(-1)![1])) + 12);
  const height = Math.ceil(Math.max(0, y - GAP));
  return { form, svg: inlineDrawing(letters === "text" ? marks : outlined(marks, type), "riff-"), width, height, bars };
}

/** Marks whose letters are outlines. */
export function outlined(marks: readonly Mark[], type: Typeface): readonly Mark[] {
  return marks.flatMap((mark): readonly Mark[] => (mark.kind === "text" ? type.outlines(mark) : [mark]));
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}

function hundredth(value: number): number {
  return Math.round(value * 10_000) / 10_000 + 0;
}
