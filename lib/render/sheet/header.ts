import { type Drill, titleOf } from "../../drill/index.js";
import { tonicTold, wordInstrument } from "../../words/index.js";
import { staffTranspositionOf } from "../musicxml/index.js";
import { capital } from "../phrases.js";
import { type Block, blockOf } from "./block.js";
import { type Mark, movedBy, type PictureMark, rule } from "./drawing.js";
import { keyName, tempoText } from "./drillText.js";
import { FAINT, INK, LEADING, MUTED, SIZES } from "./pageStyle.js";
import type { Picture } from "./picture.js";
import { qrCode } from "./qrCode.js";
import { formPage } from "./riff/formPage.js";
import { formsFor } from "./riff/riffForms.js";
import type { SheetImprint } from "./sheetOptions.js";
import { isOfBand, type Player, playerOf, type SheetReader } from "./sheetReader.js";
import type { Typeface } from "./typeface.js";
import type { SheetWords } from "./words.js";

/** What is in the header of a sheet. */
export interface HeaderWords {
  readonly instrument: string;
  readonly course: string;
  readonly title: string;
  readonly subtitle: string;
  readonly about: string;
  /** Author and arranger, a line for each; empty when nobody is named. */
  readonly makers: readonly string[];
  /** Beside the name of the course. */
  readonly logo?: Picture | undefined;
  /** Where the QR code leads; no code when left out. */
  readonly address?: string | undefined;
}

/** Longest line of text, in points: our choice; longer lines are tiring to read. */
const LONGEST_LINE = 430;
/** Side of a QR code in points: a module of an address of 100 letters is then 0.5 mm, which the camera of a telephone reads at arm's length (our choice). */
const QR_SIDE = 64;
/** Largest logo, in points; our choice. */
const LOGO = { width: 90, height: 30 };

/** The header of the first page: instrument, course with logo, title with author, key, tempo, description, and a QR code. */
export function headerBlock(
  { instrument, course, title, subtitle, about, makers, logo, address }: HeaderWords,
  { type, width }: { type: Typeface; width: number },
): Block {
  const marks: Mark[] = [];
  const picture = logo === undefined ? undefined : fitted(logo, width);
  let y = Math.max(SIZES.name, picture?.height ?? 0);
  if (picture !== undefined) marks.push({ ...picture, y: y - picture.height });
  const end = picture === undefined ? width : picture.x - 8;
  marks.push(...type.line(instrument, { x: 0, y, face: "bold", size: SIZES.name, ink: INK }));
  const room = end - type.width(instrument, "bold", SIZES.name) - 24;
  const [shown] = type.lines(course, { face: "regular", size: SIZES.label, width: Math.max(60, room) });
  if (shown) {
    const x = end - type.width(shown, "regular", SIZES.label);
    marks.push(...type.line(shown, { x, y, face: "regular", size: SIZES.label, ink: MUTED }));
  }
  y += 9;
  marks.push(rule(0, y, { dx: width, stroke: FAINT, line: 0.6 }));
  y += 8;
  const top = y;
  const aside = address === undefined ? 0 : QR_SIDE + 8;
  if (address !== undefined) marks.push(...movedBy([qrCode(address, QR_SIDE)], width - QR_SIDE, top - 4));
  const most = width - aside;
  const text = (
    words: string,
    style: { face: "regular" | "italic"; size: number; ink: string; most: number; leading?: number },
  ): void => {
    for (const line of type.lines(words, { face: style.face, size: style.size, width: style.most })) {
      y += style.size * (style.leading ?? LEADING);
      marks.push(...type.line(line, { x: 0, y, face: style.face, size: style.size, ink: style.ink }));
    }
  };
  const isLong = type.lines(title, { face: "regular", size: SIZES.title, width: most }).length > 1;
  text(title, { face: "regular", size: isLong ? SIZES.longTitle : SIZES.title, ink: INK, most, leading: 1.16 });
  // Author and arranger stand at the right, as on printed music, on lines of their own.
  for (const maker of makers.flatMap((each) => type.lines(each, { face: "regular", size: SIZES.label, width: most }))) {
    y += SIZES.label * LEADING;
    const x = most - type.width(maker, "regular", SIZES.label);
    marks.push(...type.line(maker, { x, y, face: "regular", size: SIZES.label, ink: INK }));
  }
  y += 7;
  text(subtitle, { face: "regular", size: SIZES.subtitle, ink: INK, most });
  if (about !== "") {
    y += 5;
    text(about, { face: "italic", size: SIZES.text, ink: MUTED, most: Math.min(most, LONGEST_LINE) });
  }
  const bottom = address === undefined ? y + 4 : Math.max(y + 4, top + QR_SIDE - 4);
  return blockOf(marks, { height: bottom, keepsNext: true });
}

/** A logo at the right margin, as large as fits. */
function fitted(picture: Picture, width: number): PictureMark {
  const scale = Math.min(LOGO.width / picture.width, LOGO.height / picture.height);
  const size = { width: picture.width * scale, height: picture.height * scale };
  return { kind: "picture", x: width - size.width, y: 0, ...size, picture };
}

/** Author and arranger, a line for each who is named. */
export function makersText(imprint: SheetImprint | undefined, words: SheetWords): readonly string[] {
  const { author = "", arranger } = imprint ?? {};
  const arranged = arranger === undefined ? "" : words.say("sheet.arranged-by", { arranger });
  return [author, arranged].filter((each) => each !== "");
}

/** What is in the header of a drill's sheet for a reader. */
export function headWords(
  drill: Drill,
  reader: SheetReader,
  { course, words, imprint = {} }: { course: string; words: SheetWords; imprint?: SheetImprint | undefined },
): HeaderWords {
  const form = formsFor(drill, reader)[0]!;
  const page = formPage(drill, form, reader);
  const written = keyName(staffTranspositionOf(page.staves[0]!, page.key).key, words);
  const concert = keyName(page.key, words);
  const { tuning, author = imprint.author, arranger = imprint.arranger } = drill.pattern;
  const isPercussion = page.staves[0]!.kind === "percussion";
  const title = titleOf(drill);
  const pattern = drill.pattern.title ?? drill.pattern.name;
  const facts = [
    pattern === title ? "" : pattern,
    isPercussion ? "" : written === concert ? written : words.say("sheet.sounds", { written, concert }),
    tempoText(drill, words),
    tuning === undefined || isPercussion ? "" : `A = ${tuning} Hz`,
  ];
  return {
    instrument: readerName(drill, reader, { isPercussion, words }),
    course,
    title,
    subtitle: facts.filter((fact) => fact !== "").join("   ·   "),
    // It speaks to the student; whoever reads the score leads them.
    about: isOfBand(reader) && reader !== "score" ? "" : (drill.about ?? ""),
    makers: makersText({ ...(author && { author }), ...(arranger && { arranger }) }, words),
  };
}

/** What sounds where a transposing instrument reads C, by semitones above C; with flats, as instruments are called. */
const SOUNDS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];

/** An instrument as parts are headed: "trumpet in B♭", unless its name says it, as that of an E♭ clarinet does. */
function playerName({ name, transposition }: Player["instrument"], words: SheetWords): string {
  const said = wordInstrument(name, words);
  const sounds = SOUNDS[((transposition.chromatic % 12) + 12) % 12]!;
  if (sounds === "C" || /^[A-G][b#♭♯]? | [A-G][b#♭♯] /.test(name)) return said;
  return words.say("value.in", { name: said, tonic: tonicTold(sounds, words.say) });
}

function readerName(
  drill: Drill,
  reader: SheetReader,
  { isPercussion, words }: { isPercussion: boolean; words: SheetWords },
): string {
  if (reader === "score") return words.say("sheet.score");
  if (isOfBand(reader)) return capital(reader.part);
  if (isPercussion) return capital(drill.student);
  const player = playerOf(reader);
  return player === undefined
    ? words.say("sheet.at-concert-pitch", { part: capital(drill.student) })
    : capital(playerName(player.instrument, words));
}
