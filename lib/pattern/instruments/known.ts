import { parseInterval } from "../interval.js";
import type { Instrument, Interval, Pitch } from "../model.js";
import { parsePitch } from "../pitch.js";
import { type Family, INSTRUMENT_TABLE, type InstrumentRow } from "./table.js";

/** What the table says of an instrument beside what is needed to write for it. */
export interface KnownInstrument {
  readonly instrument: Instrument;
  readonly family: Family;
  /** Lowest and highest written note of a beginner's range. */
  readonly beginners: { readonly lowest: Pitch; readonly highest: Pitch };
  /** Program of General MIDI level 1, 1 to 128. */
  readonly program: number;
  readonly otherNames: readonly string[];
}

const ROWS: readonly (readonly [family: Family, row: InstrumentRow])[] = Object.entries(INSTRUMENT_TABLE).flatMap(
  ([family, rows]) => rows.map((row) => [family as Family, row] as const),
);

/** Everything the table says, by name, in score order within each family. A row is read when it is first asked for: who starts a program asks for few. */
export const KNOWN_INSTRUMENTS: Readonly<Record<string, KnownInstrument>> = readLater((family, row) =>
  knownInstrument(family, row),
);

/** The built-in instruments by name, in score order. Curricula add their own. */
export const INSTRUMENTS: Readonly<Record<string, Instrument>> = readLater(
  (_, [name]) => KNOWN_INSTRUMENTS[name]!.instrument,
);

/** Every name of the table as `plainName` writes it -> the name of its instrument. */
export const NAMES: ReadonlyMap<string, string> = new Map(
  ROWS.flatMap(([, [name, , , , , ...otherNames]]) =>
    [name, ...otherNames].map((each) => [plainName(each), name] as const),
  ),
);

/** What `read` makes of each row, by its name, made once and when it is asked for. */
function readLater<T>(read: (family: Family, row: InstrumentRow) => T): Readonly<Record<string, T>> {
  const rows = ROWS.map(([family, row]): [string, PropertyDescriptor] => {
    let value: T | undefined;
    const get = (): T => {
      value ??= read(family, row);
      return value;
    };
    return [row[0], { enumerable: true, get }];
  });
  return Object.freeze(Object.defineProperties({}, Object.fromEntries(rows)) as Record<string, T>);
}

/**
 * A name in one spelling, so that ways to write it can be compared: small letters, `saxophone` for sax, `eb` for E flat and E♭, `bb clarinet` for
 * clarinet in B♭, blanks for hyphens.
 */
export function plainName(name: string): string {
  const plain = name
    .trim()
    .toLowerCase()
    .replaceAll("♭", "b")
    .replaceAll("♯", "#")
    .replaceAll(/[\s_-]+/g, " ")
    .replaceAll(/\b([a-g]) (?:flat\b)/g, "$1b")
    .replaceAll(/\bsax\b/g, "saxophone");
  const [, instrument, key] = /^(.+) in (bb|eb|a|c|d|f|g)$/.exec(plain) ?? [];
  return instrument === undefined ? plain : `${key} ${instrument}`;
}

function knownInstrument(family: Family, row: InstrumentRow): KnownInstrument {
  const [name, sounds, range, clef, program, ...otherNames] = row;
  const [lowest, beginnersLowest, beginnersHighest, highest] = range.split(" ").map(pitch);
  return {
    instrument: { name, transposition: interval(sounds), lowest: lowest!, highest: highest!, clef },
    family,
    beginners: { lowest: beginnersLowest!, highest: beginnersHighest! },
    program,
    otherNames,
  };
}

function interval(text: string): Interval {
  const read = parseInterval(text);
  if (!read.ok) throw new TypeError(`the instrument table holds an interval that cannot be read: ${text}`);
  return read.value;
}

function pitch(text: string): Pitch {
  const read = parsePitch(text);
  if (!read.ok) throw new TypeError(`the instrument table holds a pitch that cannot be read: ${text}`);
  return read.value;
}
