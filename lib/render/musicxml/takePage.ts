import { add, compare, type Fraction, fraction, multiply, subtract, toNumber, ZERO } from "../../base/index.js";
import { type Rung, scoreOf, titleOf } from "../../drill/index.js";
import {
  type Instrument,
  instrumentNamed,
  isHeardOnly,
  marksOf,
  type Note,
  type Pattern,
  parsePitch,
  readKeyPlace,
  scaleOf,
  transposePattern,
} from "../../pattern/index.js";
import type { Score, ScoreNote, ScorePart } from "../../schema/index.js";
import { barLength } from "../../time/index.js";
import { ENGLISH, type FileWords } from "../fileWords.js";
import { phraseLetter } from "../phraseLetters.js";
import { beatUnitOf, exactly, lengthOf, meteredBars, swingOf } from "../scoreTime.js";
import { writtenScore } from "../writtenScore.js";
import type { Bracket, OpenBars, Page, PageBar, PageStaff, Reader } from "./page.js";

export interface TakePageOptions {
  /** The mix whose silences and parts are shown; the rung's own when absent. */
  readonly mix?: string | undefined;
  /** The reader of the student's part; concert pitch when absent. */
  readonly player?: { readonly instrument: Instrument; readonly octave: number } | undefined;
  /** `student`: only the student's part; `every`: also every part that sounds in the mix. */
  readonly staves: "student" | "every";
  /** Pitch of all staves; `transposed` when absent. */
  readonly pitch?: Reader["pitch"] | undefined;
  /** Instruments of the course, besides those of the table. */
  readonly instruments?: Readonly<Record<string, Instrument>> | undefined;
  /** The language of signs over the staves; English when absent. */
  readonly words?: FileWords | undefined;
}

/**
 * The whole take of a rung as a page without repeats. Each phrase has its letter as a rehearsal mark. Silences are brackets over the student's staff and
 * rests in the parts that drop. Open bars have slashes and the scale. The student's part is always written, also where a mix plays without
 * it.
 *
 * Throws `RangeError` for a mix the drill does not have.
 * @example musicXmlOf(takePage(rung, { staves: "student", player: { instrument: INSTRUMENTS.trumpet, octave: 0 } }))
 */
export function takePage(rung: Rung, options: TakePageOptions): Page {
  const { drill, settings } = rung;
  const { words = ENGLISH } = options;
  const score = scoreOf(rung, options.mix);
  const pattern = inKey(drill.pattern, settings.key);
  const heardOnly = new Set(pattern.parts.filter(isHeardOnly).map(({ name }) => name));
  const isStaff = ({ name, student, does }: ScorePart): boolean => !student && does !== "off" && !heardOnly.has(name);
  const student = writtenScore(rung).parts.find((part) => part.student)!;
  const others = options.staves === "every" ? score.parts.filter(isStaff) : [];
  return {
    title: titleOf(drill),
    tempo: { perMinute: score.tempo ?? 60 / score.beat, beat: beatUnitOf(score) },
    swing: swingOf(score),
    tuning: score.tuningHz,
    key: pattern.key,
    bars: [...pickupBars(pattern), ...takeBars(score, drill.phrases, words)],
    chords: takeChords(score, pattern),
    staves: [student, ...others].map((part) => staffOf(part, { score, pattern, options })),
    words,
  };
}

/** The bar before bar 1 that holds the pick-up; none without a pick-up. */
export function pickupBars({ pickup, bars }: Pattern): readonly PageBar[] {
  if (pickup.n === 0) return [];
  const place = { position: subtract(ZERO, pickup), length: pickup, meter: bars[0]!.meter };
  return [{ ...place, number: "0", isPickup: true }];
}

function takeBars(score: Score, phrases: number, { say }: FileWords): readonly PageBar[] {
  const total = lengthOf(score);
  let phrase = 0;
  return meteredBars(score).map(({ position, meter }, i) => {
    const bar = score.bars[i]!;
    const end = add(position, barLength(meter));
    const length = compare(end, total) > 0 ? subtract(total, position) : barLength(meter);
    const isNew = bar.phrase !== phrase;
    phrase = bar.phrase;
    const mark = isNew ? (phrase > phrases ? say("sound.outro") : phraseLetter(phrase)) : undefined;
    const tempo = i === 0 ? undefined : score.tempi?.find((each) => each.position === bar.position)?.tempo;
    return { position, length, meter, number: String(bar.bar), isPickup: false, mark, tempo };
  });
}

function takeChords(score: Score, pattern: Pattern): Page["chords"] {
  const total = toNumber(lengthOf(score));
  const phrases = Math.ceil(total / toNumber(pattern.length));
  const all = Array.from({ length: phrases }, (_, phrase) =>
    pattern.chords.map(({ position, text }) => ({
      position: add(position, multiply(pattern.length, fraction(phrase))),
      text,
    })),
  );
  return all.flat().filter(({ position }) => toNumber(position) < total);
}

function staffOf(
  part: ScorePart,
  { score, pattern, options }: { score: Score; pattern: Pattern; options: TakePageOptions },
): PageStaff {
  const kind = pattern.parts.find(({ name }) => name === part.name)?.kind ?? "pitched";
  const open = part.student ? openBars(score) : [];
  return {
    name: part.name,
    kind,
    notes: part.notes.map(noteOf),
    reader: readerOf(part, options),
    brackets: part.student || part.does === "drops" ? bracketsOf(score, part, options.words ?? ENGLISH) : [],
    open,
  };
}

function readerOf(
  part: ScorePart,
  { player, pitch = "transposed", instruments = {} }: TakePageOptions,
): Reader | undefined {
  if (part.student && player !== undefined) return { ...player, pitch };
  const own = part.instrument === undefined ? undefined : instrumentNamed(part.instrument, instruments);
  return own === undefined ? undefined : { instrument: own, octave: 0, pitch };
}

/** The brackets of a staff. Over the student's staff the text names the parts that are out. */
function bracketsOf(score: Score, part: ScorePart, { say }: FileWords): readonly Bracket[] {
  return score.dropouts.flatMap(({ fromPosition, toPosition, parts, landing }) => {
    if (fromPosition === undefined || toPosition === undefined || parts.length === 0) return [];
    const sign = (of: "out" | "in"): string =>
      part.student ? say("sound.sign-of", { of, parts }) : say("sound.sign", { of });
    const [from, to] = [exactly(fromPosition), exactly(toPosition)];
    return [{ from, to, fromText: sign("out"), toText: landing === null ? "" : sign("in") }];
  });
}

function openBars(score: Score): readonly OpenBars[] {
  const total = lengthOf(score);
  const startOf = (bar: number): Fraction | undefined => {
    const found = score.bars.find((each) => each.bar === bar);
    return found && exactly(found.position);
  };
  return score.open.flatMap(({ bars, scale, pitchClasses }) => {
    // A scale of the course's own is known by its notes.
    const name = scale.replace(/^\S+ /, "");
    const read = scaleOf(scale, { [name]: pitchClasses.map((each) => (each - pitchClasses[0]! + 12) % 12) });
    const from = startOf(bars[0] ?? 0);
    if (!read.ok || from === undefined) return [];
    return [{ from, to: startOf((bars.at(-1) ?? 0) + 1) ?? total, scale: read.value }];
  });
}

function noteOf(note: ScoreNote): Note {
  const place = {
    position: exactly(note.position),
    length: exactly(note.length),
    accent: note.accent === true,
    ...marksOf(note),
    ...(note.loudness === undefined ? {} : { loudness: note.loudness }),
  };
  if (note.pitch === undefined) return { ...place, voice: note.voice ?? "" };
  const pitch = parsePitch(note.pitch);
  if (!pitch.ok) throw new RangeError(`a score holds pitches such as D4, got ${JSON.stringify(note.pitch)}`);
  return { ...place, pitch: pitch.value };
}

function inKey(pattern: Pattern, key: string | undefined): Pattern {
  const place = key === undefined ? undefined : readKeyPlace(key);
  return place === undefined ? pattern : transposePattern(pattern, place.key, place.octaves);
}
