import { success } from "../../../base/index.js";
import type { Drill } from "../../../drill/index.js";
import type { Instrument } from "../../../pattern/index.js";
import { musicXmlOf, type PageBar, staffTranspositionOf } from "../../musicxml/index.js";
import { capital } from "../../phrases.js";
import type { Result } from "../../problem.js";
import { type Block, blockOf } from "../block.js";
import { type Mark, movedBy, type TextMark } from "../drawing.js";
import { keyName, listed } from "../drillText.js";
import { draftRiff, type EngravedRiff, engraveDraft, type RiffDraft } from "../engraving/engraveRiff.js";
import type { Engraver } from "../engraving/engraver.js";
import { withoutPartNames, withRoomInEmptyBars, withSlashesIn } from "../engraving/engraverXml.js";
import type { System, SystemText } from "../engraving/readEngraving.js";
import { withSlidesNamed } from "../engraving/slides.js";
import { textsOver } from "../engraving/textAboveStaff.js";
import { MUTED, SIZES, STAFF } from "../pageStyle.js";
import type { SheetReader } from "../sheetReader.js";
import type { Typeface } from "../typeface.js";
import type { SheetWords } from "../words.js";
import { beatsIn, formPage } from "./formPage.js";
import { headingOver } from "./headingOver.js";
import { type Form, formsFor } from "./riffForms.js";
import { drawStrip, legendOf, stripBars, stripHeight } from "./silenceStrip.js";
import type { Silences } from "./silences.js";
import { smallScale } from "./smallScale.js";

export interface FormSetting {
  readonly engraver: Engraver;
  readonly width: number;
  readonly words: SheetWords;
  /** Instruments of the course, besides those of the table. */
  readonly instruments?: Readonly<Record<string, Instrument>> | undefined;
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
  /** The scale of its open bars on a small staff. */
  readonly scale: System | undefined;
}

/** A form that is drawn in one line, before its systems are decided. */
interface DraftedForm extends Omit<DrawnForm, "riff"> {
  readonly draft: RiffDraft;
}

/** Engraves every form of the riff for a player. Problems: ENGRAVING_FAILED, and those of the notation. */
export function drawForms(drill: Drill, reader: SheetReader, setting: FormSetting): Result<readonly DrawnForm[]> {
  const drawn = drawFormsAlike(drill, [reader], setting);
  return drawn.ok ? success(drawn.value[0]!) : drawn;
}

/**
 * Engraves every form of the riff for each of several readers, with as many systems for all as the widest of them needs, so that a class has
 * the same bars in the same lines. Problems: ENGRAVING_FAILED, and those of the notation.
 */
export function drawFormsAlike(
  drill: Drill,
  readers: readonly SheetReader[],
  setting: FormSetting,
): Result<readonly (readonly DrawnForm[])[]> {
  const drafts: (readonly DraftedForm[])[] = [];
  for (const reader of readers) {
    const drafted = draftForms(drill, reader, setting);
    if (!drafted.ok) return drafted;
    drafts.push(drafted.value);
  }
  const all: (readonly DrawnForm[])[] = [];
  for (const forms of drafts) {
    const drawn: DrawnForm[] = [];
    for (const [i, { draft, ...form }] of forms.entries()) {
      const riff = engraveDraft(draft, Math.max(...drafts.map((each) => each[i]!.draft.systems)), setting);
      if (!riff.ok) return riff;
      drawn.push({ ...form, riff: riff.value });
    }
    all.push(drawn);
  }
  return success(all);
}

function draftForms(drill: Drill, reader: SheetReader, setting: FormSetting): Result<readonly DraftedForm[]> {
  const { words, instruments } = setting;
  const forms = formsFor(drill, reader);
  const drafted: DraftedForm[] = [];
  const scales = new Set<string | undefined>();
  for (const form of forms) {
    const page = formPage(drill, form, reader, instruments);
    const written = musicXmlOf(page);
    if (!written.ok) return written;
    const open = new Set(page.bars.flatMap(({ number }, k) => (form.openBars.includes(Number(number)) ? [k] : [])));
    const named = reader === "score" ? written.value : withoutPartNames(written.value);
    const xml = withSlidesNamed(withRoomInEmptyBars(withSlashesIn(named, open), page.bars));
    const draft = draftRiff(xml, setting);
    if (!draft.ok) return draft;
    const shown = JSON.stringify(page.staves[0]!.open[0]?.scale);
    // A scale stands under the first form that has it.
    const scale: Result<System | undefined> = scales.has(shown) ? success(undefined) : smallScale(page, setting);
    if (!scale.ok) return scale;
    scales.add(shown);
    const heading = forms.length > 1 ? headingOf(drill, form, { forms, reader, words }) : "";
    const pitched = page.staves.find(({ kind }) => kind === "pitched");
    const transposition = staffTranspositionOf(pitched ?? page.staves[0]!, page.key);
    drafted.push({
      bars: page.bars,
      draft: draft.value,
      chords: pitched === undefined ? [] : page.chords.map(({ text }) => transposition.chord(text)),
      heading,
      scale: scale.value,
    });
  }
  return success(drafted);
}

/** Width of a clef from the left edge of its staff, in points. */
const CLEF = 3 * (STAFF / 4);

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
  { forms, reader, words }: { forms: readonly Form[]; reader: SheetReader; words: SheetWords },
): string {
  const differ = (value: (form: Form) => string): boolean => new Set(forms.map(value)).size > 1;
  const variant = form.settings.variant;
  const said: string[] = [];
  if (variant !== undefined && differ((each) => each.settings.variant ?? "")) said.push(variant);
  if (differ((each) => each.settings.key ?? "")) {
    const { key } = staffTranspositionOf(formPage(drill, form, reader).staves[0]!, form.pattern.key);
    said.push(words.say("sheet.in-key", { key: keyName(key, words) }));
  }
  if (differ((each) => each.openBars.join("+"))) said.push(openText(form.openBars, { reader, words }));
  return capital(said.join(", "));
}

/** Which bars are open: to the player they are "yours", on a score "open". */
function openText(openBars: readonly number[], { reader, words }: { reader: SheetReader; words: SheetWords }): string {
  if (openBars.length === 0) return words.say("sheet.all-written");
  const said = { count: openBars.length, bars: listed(openBars.map(String), words) };
  return words.say(reader === "score" ? "sheet.bars-open" : "sheet.bars-yours", said);
}

function systemBlocks(
  drill: Drill,
  { bars: all, riff, chords, heading, scale }: DrawnForm,
  { type, words, silences, width, isFirst }: RiffSetting & { isFirst: boolean },
): readonly Block[] {
  let next = 0;
  let chord = 0;
  // The engraver prints fewer chord symbols than authors write: the positions are from the engraver, the texts from the author.
  const isWhole =
    riff.systems.flatMap(({ texts }) => texts.filter(({ kind }) => kind === "chord")).length === chords.length;
  const said = (text: SystemText): string => (text.kind === "chord" && isWhole ? chords[chord++]! : text.text);
  const hasStrip = silences.groups.length > 0;
  return riff.systems.map((system, i) => {
    const bars = stripBars(system, all, next);
    const number = all[next]?.number;
    next += system.bars.length;
    const isLast = i === riff.systems.length - 1;
    const marks: Mark[] = [];
    const times = isLast && drill.phrases > 1 ? words.say("sheet.repeated", { count: drill.phrases }) : "";
    const texts = [
      ...textsOver(system, said, { type, times, width }),
      // Under a strip every bar has its number.
      ...(i > 0 && !hasStrip && number !== undefined ? barNumber(number, { system, type }) : []),
    ];
    const highest = Math.min(system.top, ...texts.map((mark) => mark.y - mark.size * 0.75));
    const lowest = Math.max(system.bottom, ...texts.map((mark) => mark.y + 3));
    const over = i === 0 ? headingOver(drill, { heading, type, words }) : { marks: [], height: 0 };
    marks.push(...over.marks);
    const top = over.height - highest;
    marks.push(...movedBy([...system.marks, ...texts], 0, top));
    const strip = drawStrip({ silences, bars, beats: beatsIn(drill.pattern) }, { type, words });
    const stripTop = top + lowest + 8;
    marks.push(...movedBy(strip, 0, stripTop));
    const left = bars[0]?.x(bars[0].from) ?? 0;
    let height = stripTop + (strip.length > 0 ? stripHeight(silences, { type, words, left }) : -8);
    const legend = isFirst && isLast ? legendOf(silences, words) : "";
    for (const line of type.lines(legend, { face: "italic", size: SIZES.small, width })) {
      marks.push(
        ...type.line(line, { x: 0, y: height + SIZES.small + 1, face: "italic", size: SIZES.small, ink: MUTED }),
      );
      height += SIZES.small * 1.3;
    }
    if (isLast && scale !== undefined) {
      marks.push(...movedBy(scale.marks, 0, height + 6 - scale.top));
      height += 6 - scale.top + scale.bottom;
    }
    return blockOf(marks, {
      height,
      gap: i === 0 ? 24 : 16,
      keepsNext: !isLast && (i === 0 || i === riff.systems.length - 2),
    });
  });
}

/** The number of the first bar of a system, over its clef. */
function barNumber(number: string, { system, type }: { system: System; type: Typeface }): readonly TextMark[] {
  const clef = system.covered.filter(({ left }) => left < CLEF).map(({ top }) => top);
  return type.line(number, { x: 0, y: Math.min(-4, ...clef) - 2, face: "italic", size: 7.5, ink: MUTED });
}
