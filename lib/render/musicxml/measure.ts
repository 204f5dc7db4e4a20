import { add, compare, type Fraction, fraction, multiply, subtract, ZERO } from "../../base/index.js";
import { element, emptyElement, textElement, type Xml } from "../../formats/musicxml/index.js";
import { barLength, type Meter, meterText, sameMeter } from "../../time/index.js";
import type { Accidentals } from "./accidentals.js";
import { beamedTuplets, beamsOf } from "./beams.js";
import { barRest, type NoteSetting, noteElements } from "./note.js";
import type { NoteSymbol } from "./noteSymbols.js";
import type { Page, PageBar, PageStaff } from "./page.js";
import type { Mark } from "./staffMarks.js";
import type { StaffTransposition } from "./staffTransposition.js";
import type { Sounding } from "./voices.js";

/** A staff ready to write: its transposition, its voices as note symbols, its accidentals, and the marks over it. */
export interface StaffPlan {
  readonly staff: PageStaff;
  readonly transposition: StaffTransposition;
  /** `voices[voice][bar]`. */
  readonly voices: readonly (readonly (readonly NoteSymbol<Sounding>[])[])[];
  readonly accidentals: Accidentals;
  readonly marks: readonly Mark[];
}

export interface MeasureSetting extends Omit<NoteSetting, "transposition" | "accidentals" | "voice"> {
  readonly page: Page;
  readonly plan: StaffPlan;
}

/** One bar of a staff as a `measure` element. */
export function measure(index: number, { page, plan, ...rest }: MeasureSetting): Xml {
  const bar = page.bars[index]!;
  const marks = plan.marks.filter((mark) => isIn(mark, bar));
  const written = plan.voices.flatMap((bars, v): readonly Xml[] => {
    const symbols = bars[index]!;
    const sounds = symbols.some(({ content }) => content !== undefined);
    if (v > 0 && !sounds) return [];
    const duration = units(bar.length, rest.divisions);
    const back = v > 0 ? [element("backup", {}, [textElement("duration", duration)])] : [];
    const setting = { ...rest, transposition: plan.transposition, accidentals: plan.accidentals, voice: v + 1 };
    return [...back, ...voiceElements(symbols, { bar, sounds, marks: v > 0 ? [] : marks }, setting)];
  });
  const isShort = compare(bar.length, barLength(bar.meter)) < 0;
  const attributes = attributesAt(index, { page, plan, divisions: rest.divisions });
  const { start, end } = barLines(index, page);
  return element("measure", { number: bar.number, implicit: isShort ? "yes" : undefined }, [
    start,
    attributes,
    ...written,
    end,
  ]);
}

/** The bar lines that are not plain: around what is repeated, and at the end. */
function barLines(index: number, { bars, repeats }: Page): { readonly start: Xml; readonly end: Xml } {
  const first = bars.findIndex(({ isPickup }) => !isPickup);
  const repeat = (direction: "forward" | "backward", times?: number): Xml =>
    repeats === undefined ? "" : emptyElement("repeat", { direction, times });
  const line = (location: "left" | "right", style: string, sign: Xml): Xml =>
    element("barline", { location }, [textElement("bar-style", style), sign]);
  return {
    start: index === first && repeats !== undefined ? line("left", "heavy-light", repeat("forward")) : "",
    end: index === bars.length - 1 ? line("right", "light-heavy", repeat("backward", repeats)) : "",
  };
}

function voiceElements(
  symbols: readonly NoteSymbol<Sounding>[],
  { bar, sounds, marks }: { bar: PageBar; sounds: boolean; marks: readonly Mark[] },
  setting: NoteSetting,
): readonly Xml[] {
  const write = (mark: Mark, from: Fraction): Xml =>
    mark.write(units(subtract(subtract(mark.position, bar.position), from), setting.divisions));
  if (!sounds) {
    const rest = barRest(units(bar.length, setting.divisions), setting.voice);
    const [ends, starts] = [marks.filter((mark) => mark.isEnd), marks.filter((mark) => !mark.isEnd)];
    return [...starts.map((mark) => write(mark, ZERO)), rest, ...ends.map((mark) => write(mark, bar.length))];
  }
  const start = bar.isPickup ? subtract(barLength(bar.meter), bar.length) : ZERO;
  const beams = beamsOf(symbols, bar.meter, start);
  const beamed = beamedTuplets(symbols, beams);
  const placed = (symbol: NoteSymbol<Sounding>, isEnd: boolean): readonly Mark[] =>
    marks.filter((mark) => {
      const at = subtract(mark.position, bar.position);
      const [from, to] = [compare(at, symbol.from), compare(at, symbol.to)];
      return mark.isEnd === isEnd && (isEnd ? from > 0 && to <= 0 : from >= 0 && to < 0);
    });
  return symbols.flatMap((symbol, i) => [
    ...placed(symbol, false).map((mark) => write(mark, symbol.from)),
    ...noteElements(symbol, { beams: beams[i]!, beamed }, setting),
    ...placed(symbol, true).map((mark) => write(mark, symbol.to)),
  ]);
}

function attributesAt(
  index: number,
  { page, plan, divisions }: { page: Page; plan: StaffPlan; divisions: number },
): Xml {
  const bar = page.bars[index]!;
  const isFirst = index === 0;
  const inside: Xml[] = [];
  if (isFirst) {
    inside.push(textElement("divisions", divisions));
    inside.push(
      element("key", {}, [textElement("fifths", plan.staff.kind === "percussion" ? 0 : plan.transposition.fifths)]),
    );
  }
  if (isFirst || !sameMeter(page.bars[index - 1]!.meter, bar.meter)) inside.push(time(bar.meter));
  if (isFirst) inside.push(clef(plan.transposition.clef), transpose(plan.transposition));
  for (const { from, to } of plan.staff.open) {
    if (compare(to, bar.position) === 0) inside.push(slash("stop"));
    if (compare(from, bar.position) === 0) inside.push(slash("start"));
  }
  return inside.length > 0 ? element("attributes", {}, inside) : "";
}

function time(meter: Meter): Xml {
  const [beats, type] = meterText(meter).split("/");
  return element("time", {}, [textElement("beats", beats!), textElement("beat-type", type!)]);
}

const CLEFS = {
  treble: ["G", 2],
  bass: ["F", 4],
  alto: ["C", 3],
  tenor: ["C", 4],
  percussion: ["percussion", 0],
} as const;

function clef(name: StaffTransposition["clef"]): Xml {
  const [sign, line] = CLEFS[name];
  return element("clef", {}, [textElement("sign", sign), line === 0 ? "" : textElement("line", line)]);
}

/** `diatonic` and `chromatic` are without octaves; `octave-change` has these (MusicXML 4.0). */
function transpose({ sounds }: StaffTransposition): Xml {
  if (sounds === undefined) return "";
  const octaves = Math.trunc(sounds.chromatic / 12);
  return element("transpose", {}, [
    textElement("diatonic", sounds.diatonic - 7 * octaves),
    textElement("chromatic", sounds.chromatic - 12 * octaves),
    octaves === 0 ? "" : textElement("octave-change", octaves),
  ]);
}

function slash(type: "start" | "stop"): Xml {
  return element("measure-style", {}, [emptyElement("slash", { type, "use-stems": "no" })]);
}

function isIn({ position, isEnd }: Mark, bar: PageBar): boolean {
  const [from, to] = [compare(position, bar.position), compare(position, add(bar.position, bar.length))];
  return isEnd ? from > 0 && to <= 0 : from >= 0 && to < 0;
}

/** A length in divisions. Throws `RangeError` when it is not a whole number of them. */
function units(length: Fraction, divisions: number): number {
  const { n, d } = multiply(length, fraction(4 * divisions));
  if (d === 1) return n;
  throw new RangeError(`${length.n}/${length.d} of a whole note is not a whole number of 1/${divisions} quarter notes`);
}
