import { add, compare, equals, type Fraction, fraction } from "../../../base/index.js";
import type { Drill } from "../../../drill/index.js";
import {
  type Bar,
  type Instrument,
  instrumentNamed,
  intervalBetween,
  isHeardOnly,
  type Key,
  type Note,
  type Part,
  type Pattern,
  type Scale,
  transposePitch,
} from "../../../pattern/index.js";
import { barLength, type Meter } from "../../../time/index.js";
import { type Page, type Reader, riffPage } from "../../musicxml/index.js";
import { isOfBand, playerOf, type SheetReader } from "../sheetReader.js";
import type { Form } from "./riffForms.js";

/**
 * A form of the riff as a page for its reader: one staff, or all of them for a score; between repeat signs where it is played more than once. Tempo
 * and swing are in the header of the sheet instead. `own` are the instruments of the course.
 */
export function formPage(
  drill: Drill,
  form: Form,
  reader: SheetReader,
  own: Readonly<Record<string, Instrument>> = {},
): Page {
  const player = isOfBand(reader) ? undefined : playerOf(reader);
  const page = isOfBand(reader)
    ? bandPage(drill, form, { reader, own })
    : studentPage(drill, form, player && { ...player, pitch: "transposed" });
  const repeated = drill.phrases > 1 ? { repeats: drill.phrases } : {};
  return { ...page, ...repeated, swing: undefined };
}

/** The student's part: what is written, and a slash for each beat of its open bars. */
function studentPage(drill: Drill, form: Form, reader: Reader | undefined): Page {
  const bars = form.pattern.bars.filter(({ number }) => form.openBars.includes(number));
  const open: { from: Fraction; to: Fraction }[] = [];
  for (const { position, meter } of bars) {
    const to = add(position, barLength(meter));
    const last = open.at(-1);
    if (last !== undefined && equals(last.to, position)) last.to = to;
    else open.push({ from: position, to });
  }
  const page = riffPage(form.pattern, {
    part: drill.student,
    variant: form.variant,
    open: open.map((stretch) => ({ ...stretch, scale: scaleIn(drill, form) })),
    ...(reader && { reader }),
  });
  const staff = page.staves[0]!;
  const written = staff.notes.filter(({ position }) => !open.some(({ from, to }) => isIn(position, from, to)));
  const notes = [...written, ...bars.flatMap((bar) => beatNotes(bar, form.pattern.key))];
  const staves = [{ ...staff, notes: notes.sort((a, b) => compare(a.position, b.position)) }];
  return { ...page, staves };
}

/** The page of another part than the student's, or of all parts: the student's first, percussion last. */
function bandPage(
  drill: Drill,
  form: Form,
  { reader, own }: { reader: { readonly part: string } | "score"; own: Readonly<Record<string, Instrument>> },
): Page {
  const { pattern, variant } = form;
  const order = (part: Part): number => (part.name === drill.student ? 0 : part.kind === "percussion" ? 2 : 1);
  const parts =
    reader === "score"
      ? pattern.parts.filter((part) => !isHeardOnly(part)).sort((a, b) => order(a) - order(b))
      : pattern.parts.filter(({ name }) => name === reader.part);
  const pages = parts.map((part) => {
    const instrument = part.instrument === undefined ? undefined : instrumentNamed(part.instrument, own);
    const pitch = reader === "score" ? ("concert" as const) : ("transposed" as const);
    const as = instrument && { instrument, octave: 0, pitch };
    if (part.name === drill.student) return studentPage(drill, form, as);
    return riffPage(pattern, { part: part.name, variant, ...(as && { reader: as }) });
  });
  if (pages.length === 0) throw new RangeError(`pattern ${pattern.name} has no part ${JSON.stringify(reader)}`);
  return { ...pages[0]!, staves: pages.flatMap(({ staves }) => staves) };
}

function isIn(position: Fraction, from: Fraction, to: Fraction): boolean {
  return compare(position, from) >= 0 && compare(position, to) < 0;
}

/** A note for each beat of an open bar. It is drawn as a slash, so its pitch does not matter. */
function beatNotes({ position, meter }: Bar, { tonic }: Key): readonly Note[] {
  let at = position;
  return beatSizes(meter).map((size) => {
    const length = fraction(size, meter.lower);
    const note: Note = { position: at, length, pitch: { ...tonic, octave: 4 }, voice: "snare", accent: false };
    at = add(at, length);
    return note;
  });
}

/** The scale of the open bars, transposed with the riff. */
function scaleIn(drill: Drill, { pattern }: Form): Scale {
  const scale = drill.open?.scale;
  if (scale === undefined) throw new RangeError(`drill ${drill.name} has open bars without a scale`);
  const way = intervalBetween(drill.pattern.key.tonic, pattern.key.tonic);
  const { letter, alter } = transposePitch({ ...scale.tonic, octave: 4 }, way);
  return { ...scale, tonic: { letter, alter } };
}

/** The beats of a bar in units of the meter's lower number: its groups when it has several, else single units. */
function beatSizes({ groups }: Meter): readonly number[] {
  return groups.length > 1 ? groups : new Array<number>(groups[0]!).fill(1);
}

/** The beats of a riff, in whole notes from the downbeat of bar 1, pick-up excluded. */
export function beatsIn({ bars }: Pattern): readonly { readonly from: Fraction; readonly to: Fraction }[] {
  return bars.flatMap(({ position, meter }) => {
    let at = position;
    return beatSizes(meter).map((size) => {
      const from = at;
      at = add(at, fraction(size, meter.lower));
      return { from, to: at };
    });
  });
}
