import { compare, equals, fraction, multiply, subtract } from "../../base/index.js";
import { element, emptyElement, textElement, type Xml } from "../../formats/musicxml/index.js";
import { type Note, type Pitch, USUAL_TUPLETS } from "../../pattern/index.js";
import { type Accidentals, accidentalElement } from "./accidentals.js";
import type { Beam } from "./beams.js";
import type { NoteSymbol } from "./noteSymbols.js";
import { noteTypeName } from "./noteValues.js";
import { staffPlace } from "./percussionStaff.js";
import type { StaffTransposition } from "./staffTransposition.js";
import type { Tuplet } from "./tuplets.js";
import type { Sounding } from "./voices.js";

export interface NoteSetting {
  readonly transposition: StaffTransposition;
  readonly accidentals: Accidentals;
  readonly voice: number;
  /** Divisions of a quarter note. */
  readonly divisions: number;
  /** The id of the instrument of a percussion voice. */
  readonly instrumentOf: (voice: string) => string;
}

/** A note, chord or rest as `note` elements. */
export function noteElements(
  symbol: NoteSymbol<Sounding>,
  { beams, beamed }: { beams: readonly Beam[]; beamed: ReadonlySet<Tuplet> },
  setting: NoteSetting,
): readonly Xml[] {
  const { content } = symbol;
  const span = subtract(symbol.to, symbol.from);
  const duration = textElement("duration", multiply(span, fraction(4 * setting.divisions)).n);
  const shape = [
    textElement("voice", setting.voice),
    textElement("type", noteTypeName(symbol.value)),
    symbol.value.dots === 1 ? emptyElement("dot") : "",
  ];
  const tuplet = tupletNotation(symbol, beamed);
  if (content === undefined) {
    const notations = tuplet.length > 0 ? element("notations", {}, tuplet) : "";
    return [element("note", {}, [emptyElement("rest"), duration, ...shape, timeModification(symbol), notations])];
  }
  const ties = tiesOf(symbol, content);
  const notes = [...content.chord.notes].sort(byHeight);
  return notes.map((note, i) => {
    const accidental = setting.accidentals.get(symbol)?.get(note);
    const ends = { begins: !ties.includes("stop"), ends: !ties.includes("start") };
    const notations = [
      ...ties.map((type) => emptyElement("tied", { type })),
      ...(i === 0 ? slursOf(content, ends) : []),
      ...(i === 0 ? tuplet : []),
      ...articulationsOf(note, notes, ends),
    ];
    return element("note", {}, [
      i > 0 ? emptyElement("chord") : "",
      height(note, setting),
      duration,
      ...ties.map((type) => emptyElement("tie", { type })),
      note.voice === undefined ? "" : emptyElement("instrument", { id: setting.instrumentOf(note.voice) }),
      ...shape,
      accidental === undefined ? "" : accidentalElement(accidental),
      timeModification(symbol),
      note.voice === undefined ? "" : textElement("stem", "up"),
      head(note),
      ...(i === 0 ? beams.map((beam, level) => textElement("beam", beam, { number: level + 1 })) : []),
      notations.length > 0 ? element("notations", {}, notations) : "",
    ]);
  });
}

/** A rest for a whole bar, whatever its length. */
export function barRest(duration: number, voice: number): Xml {
  const rest = emptyElement("rest", { measure: "yes" });
  return element("note", {}, [rest, textElement("duration", duration), textElement("voice", voice)]);
}

function tiesOf(symbol: NoteSymbol<Sounding>, { startsHere, endsHere }: Sounding): readonly ("start" | "stop")[] {
  const stop = !(symbol.isFirst && startsHere);
  const start = !(symbol.isLast && endsHere);
  return [...(stop ? (["stop"] as const) : []), ...(start ? (["start"] as const) : [])];
}

function height(note: Note, { transposition }: NoteSetting): Xml {
  if (note.pitch !== undefined) {
    const { letter, alter, octave } = transposition.pitch(note.pitch);
    return element("pitch", {}, [
      textElement("step", letter),
      alter === 0 ? "" : textElement("alter", alter),
      textElement("octave", octave),
    ]);
  }
  const { step, octave } = staffPlace(note.voice ?? "");
  return element("unpitched", {}, [textElement("display-step", step), textElement("display-octave", octave)]);
}

/** A ghost note has its head in parentheses. */
function head({ voice, ghost }: Note): Xml {
  const shape = voice === undefined ? "normal" : staffPlace(voice).head;
  if (ghost) return textElement("notehead", shape, { parentheses: "yes" });
  return shape === "normal" ? "" : textElement("notehead", shape);
}

function timeModification({ tuplet }: NoteSymbol<Sounding>): Xml {
  if (tuplet === undefined) return "";
  return element("time-modification", {}, [
    textElement("actual-notes", tuplet.actual),
    textElement("normal-notes", tuplet.normal),
    textElement("normal-type", noteTypeName({ value: tuplet.unit.d, dots: 0 })),
  ]);
}

function tupletNotation({ tuplet, from, to }: NoteSymbol<Sounding>, beamed: ReadonlySet<Tuplet>): readonly Xml[] {
  if (tuplet === undefined) return [];
  const bracket = beamed.has(tuplet) ? "no" : "yes";
  // Usual tuplets show one number, others both, such as 15:10.
  const number = USUAL_TUPLETS.get(tuplet.actual) === tuplet.normal ? undefined : "both";
  return [
    ...(equals(tuplet.from, from) ? [emptyElement("tuplet", { type: "start", bracket, "show-number": number })] : []),
    ...(equals(tuplet.to, to) ? [emptyElement("tuplet", { type: "stop" })] : []),
  ];
}

/** Whether a symbol is the first of a note, and the last: a note over a bar line is several, tied. */
interface Ends {
  readonly begins: boolean;
  readonly ends: boolean;
}

/** A chord has one slur, at its lowest note: from the first symbol of its first chord to the last symbol of its last one. */
function slursOf({ chord: { slur } }: Sounding, { begins, ends }: Ends): readonly Xml[] {
  if (slur === "begins" && begins) return [emptyElement("slur", { type: "start", number: 1 })];
  return slur === "ends" && ends ? [emptyElement("slur", { type: "stop", number: 1 })] : [];
}

/** A chord has one of each sign, at its lowest note, whichever of its notes have them; strokes of percussion have each their own. All stand at its beginning, a fall at its end. */
function articulationsOf(note: Note, chord: readonly Note[], { begins, ends }: Ends): readonly Xml[] {
  const marked = note.voice !== undefined ? [note] : note === chord[0] ? chord : [];
  const sign = (name: string, is: (note: Note) => boolean | undefined): readonly Xml[] =>
    marked.some(is) ? [emptyElement(name)] : [];
  const first = begins
    ? [
        ...sign("accent", ({ accent }) => accent),
        ...sign("staccato", ({ short }) => short),
        ...sign("tenuto", ({ tenuto }) => tenuto),
        ...sign("scoop", ({ scoop }) => scoop),
      ]
    : [];
  const marks = [...first, ...(ends ? sign("falloff", ({ fall }) => fall) : [])];
  return marks.length > 0 ? [element("articulations", {}, marks)] : [];
}

function byHeight(a: Note, b: Note): number {
  const steps = "CDEFGAB";
  const of = ({ letter, octave }: Pick<Pitch, "letter" | "octave">): number => steps.indexOf(letter) + 7 * octave;
  const place = (note: Note): number => {
    if (note.pitch) return of(note.pitch);
    const { step, octave } = staffPlace(note.voice ?? "");
    return of({ letter: step, octave });
  };
  return place(a) - place(b) || compare(a.length, b.length);
}
