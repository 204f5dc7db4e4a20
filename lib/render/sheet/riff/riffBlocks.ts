import { success } from "../../../base/index.js";
import type { Drill } from "../../../drill/index.js";
import { musicXmlOf, type PageBar, staffTranspositionOf } from "../../musicxml/index.js";
import { capital } from "../../phrases.js";
import type { Result } from "../../problem.js";
import { type Block, blockOf } from "../block.js";
import { type Mark, movedBy } from "../drawing.js";
import { keyName, listed } from "../drillText.js";
import { type EngravedRiff, engraveRiff } from "../engraving/engraveRiff.js";
import type { Engraver } from "../engraving/engraver.js";
import { withoutPartNames, withRoomInEmptyBars, withSlashesIn } from "../engraving/engraverXml.js";
import type { SystemText } from "../engraving/readEngraving.js";
import { textsOver } from "../engraving/textAboveStaff.js";
import { INK, MUTED, SIZES } from "../pageStyle.js";
import type { Typeface } from "../typeface.js";
import type { SheetWords } from "../words.js";
import { beatsIn, formPage, type Player } from "./formPage.js";
import { type Form, formsOf } from "./riffForms.js";
import { drawStrip, legendOf, stripBars, stripHeight } from "./silenceStrip.js";
import type { Silences } from "./silences.js";

export interface FormSetting {
  readonly player: Player | undefined;
  readonly engraver: Engraver;
  readonly width: number;
  readonly words: SheetWords;
}

export interface RiffSetting {
  readonly type: Typeface;
  readonly words: SheetWords;
  readonly width: number;
  readonly silences: Silences;
  readonly strips: "every form" | "first form";
}

/** An engraved form of the riff, with its chord symbols and heading. */
export interface DrawnForm {
  readonly bars: readonly PageBar[];
  readonly riff: EngravedRiff;
  /** Chord symbols as the player reads them, in order of time. */
  readonly chords: readonly string[];
  /** Empty when there is only one form. */
  readonly heading: string;
}

/** Engraves every form of the riff for a player. Problems: ENGRAVING_FAILED, and those of the notation. */
export function drawForms(drill: Drill, { player, engraver, width, words }: FormSetting): Result<readonly DrawnForm[]> {
  const forms = formsOf(drill);
  const drawn: DrawnForm[] = [];
  for (const form of forms) {
    const page = formPage(drill, form, player);
    const written = musicXmlOf(page);
    if (!written.ok) return written;
    const open = new Set(page.bars.flatMap(({ number }, k) => (form.openBars.includes(Number(number)) ? [k] : [])));
    const xml = withRoomInEmptyBars(withSlashesIn(withoutPartNames(written.value), open), page.bars);
    const riff = engraveRiff(xml, { engraver, width });
    if (!riff.ok) return riff;
    const heading = forms.length > 1 ? headingOf(drill, form, { forms, player, words }) : "";
    const transposition = staffTranspositionOf(page.staves[0]!, page.key);
    drawn.push({
      bars: page.bars,
      riff: riff.value,
      chords: page.chords.map(({ text }) => transposition.chord(text)),
      heading,
    });
  }
  return success(drawn);
}

/** The forms as blocks: heading and systems, with the strip of silences under every form or the first only. */
export function riffBlocks(drill: Drill, forms: readonly DrawnForm[], setting: RiffSetting): readonly Block[] {
  return forms.flatMap((form, i) => {
    const hasStrip = i === 0 || setting.strips === "every form";
    const silences = hasStrip ? setting.silences : { ...setting.silences, groups: [] };
    return systemBlocks(drill, form, { ...setting, silences, isFirst: i === 0 });
  });
}

/** The heading of a form: those of variant, key as the player reads it, and open bars that differ between forms. */
function headingOf(
  drill: Drill,
  form: Form,
  { forms, player, words }: { forms: readonly Form[]; player: Player | undefined; words: SheetWords },
): string {
  const differ = (value: (form: Form) => string): boolean => new Set(forms.map(value)).size > 1;
  const variant = form.settings.variant;
  const said: string[] = [];
  if (variant !== undefined && differ((each) => each.settings.variant ?? "")) said.push(variant);
  if (differ((each) => each.settings.key ?? "")) {
    const { key } = staffTranspositionOf(formPage(drill, form, player).staves[0]!, form.pattern.key);
    said.push(words.say("sheet.in-key", { key: keyName(key) }));
  }
  if (differ((each) => each.openBars.join("+"))) said.push(yoursText(form.openBars, words));
  return capital(said.join(", "));
}

function yoursText(openBars: readonly number[], words: SheetWords): string {
  if (openBars.length === 0) return words.say("sheet.all-written");
  return words.say("sheet.bars-yours", { count: openBars.length, bars: listed(openBars.map(String), words) });
}

function systemBlocks(
  drill: Drill,
  { bars: all, riff, chords, heading }: DrawnForm,
  { type, words, silences, width, isFirst }: RiffSetting & { isFirst: boolean },
): readonly Block[] {
  let next = 0;
  let chord = 0;
  // The engraver prints fewer chord symbols than authors write: the positions are from the engraver, the texts from the author.
  const isWhole =
    riff.systems.flatMap(({ texts }) => texts.filter(({ kind }) => kind === "chord")).length === chords.length;
  const said = (text: SystemText): string => (text.kind === "chord" && isWhole ? chords[chord++]! : text.text);
  return riff.systems.map((system, i) => {
    const bars = stripBars(system, all, next);
    next += system.bars.length;
    const marks: Mark[] = [];
    const texts = textsOver(system, said, type);
    const highest = Math.min(system.top, ...texts.map((mark) => mark.y - mark.size * 0.75));
    const lowest = Math.max(system.bottom, ...texts.map((mark) => mark.y + 3));
    const headed = i === 0 && heading !== "";
    if (headed) marks.push(...type.line(heading, { x: 0, y: SIZES.text, face: "bold", size: SIZES.text, ink: INK }));
    const top = (headed ? SIZES.text + 10 : 0) - highest;
    marks.push(...movedBy([...system.marks, ...texts], 0, top));
    const strip = drawStrip({ silences, bars, beats: beatsIn(drill.pattern) }, { type, words });
    const stripTop = top + lowest + 8;
    marks.push(...movedBy(strip, 0, stripTop));
    let height = stripTop + (strip.length > 0 ? stripHeight(silences) : -8);
    const isLast = i === riff.systems.length - 1;
    const legend = isFirst && isLast ? legendOf(silences, words) : "";
    for (const line of type.lines(legend, { face: "italic", size: SIZES.small, width })) {
      marks.push(
        ...type.line(line, { x: 0, y: height + SIZES.small + 1, face: "italic", size: SIZES.small, ink: MUTED }),
      );
      height += SIZES.small * 1.3;
    }
    return blockOf(marks, {
      height,
      gap: i === 0 ? 24 : 16,
      keepsNext: !isLast && (i === 0 || i === riff.systems.length - 2),
    });
  });
}
