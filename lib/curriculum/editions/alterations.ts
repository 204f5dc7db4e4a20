import { compare, fractionText } from "../../base/index.js";
import type { Drill } from "../../drill/index.js";
import type { Note, Part, Pattern } from "../../pattern/index.js";
import { meterText } from "../../time/index.js";

/** Fields of a drill and its pattern that can change while its rungs keep their settings. */
const ASKED = ["tolerance", "gate", "goBack", "needs"] as const;

const HEARD = [
  "beat",
  "phrases",
  "endless",
  "outro",
  "countIn",
  "countInVoice",
  "dropout",
  "open",
  "mixes",
  "student",
] as const;

const TOLD = ["ladders", "players", "title", "about"] as const;

const PATTERN = ["key", "swing", "pickup"] as const;

/**
 * A change in a drill of a new edition that leaves the settings of its rungs, and so their credit, as they are. `heard`: the rung sounds
 * different, or other notes are expected of the student. `asked`: another tolerance, gate, going back or need. `told`: other words about the
 * drill, or another order of its rungs.
 */
export interface Alteration {
  readonly effect: "heard" | "asked" | "told";
  readonly aspect:
    | (typeof ASKED)[number]
    | (typeof HEARD)[number]
    | (typeof TOLD)[number]
    | (typeof PATTERN)[number]
    | "bars"
    | "chords"
    | "parts"
    | "variants"
    | "notes"
    | "recorded";
  /** The value before and now, as the drill or its pattern has it (bars: their meters; parts and variants: their names; recorded: file, first digits of its checksum, variant, tempo, beat, start and bars of each recording); absent where there is none. */
  readonly was?: unknown;
  readonly is?: unknown;
  /** For variants and notes: the part, and the variant unless the part has none. */
  readonly part?: string;
  readonly variant?: string;
  /** For notes: the numbers of the bars that differ, 0 for the pick-up. */
  readonly bars?: readonly number[];
}

/** All changes of a drill except those of its settings; empty when there are none. */
export function alterationsBetween(old: Drill, now: Drill): readonly Alteration[] {
  return [
    ...ASKED.flatMap((aspect) => changed({ effect: "asked", aspect, was: old[aspect], is: now[aspect] })),
    ...HEARD.flatMap((aspect) => changed({ effect: "heard", aspect, was: old[aspect], is: now[aspect] })),
    ...patternAlterations(old.pattern, now.pattern),
    ...TOLD.flatMap((aspect) => changed({ effect: "told", aspect, was: old[aspect], is: now[aspect] })),
  ];
}

/** Deep equality of plain data: the order of keys does not count, the order of lists does. */
export function sameData(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [left, right] = [stated(a), stated(b)];
  return (
    left.size === right.size && [...left].every(([key, value]) => right.has(key) && sameData(value, right.get(key)))
  );
}

function changed({ was, is, ...rest }: Alteration): readonly Alteration[] {
  if (sameData(was, is)) return [];
  return [{ ...rest, ...(was === undefined ? {} : { was }), ...(is === undefined ? {} : { is }) }];
}

function patternAlterations(old: Pattern, now: Pattern): readonly Alteration[] {
  const meters = ({ bars }: Pattern): readonly string[] => bars.map(({ meter }) => meterText(meter));
  const names = ({ parts }: Pattern): readonly string[] => parts.map(({ name }) => name).sort();
  return [
    ...changed({ effect: "heard", aspect: "bars", was: meters(old), is: meters(now) }),
    ...PATTERN.flatMap((aspect) => changed({ effect: "heard", aspect, was: old[aspect], is: now[aspect] })),
    ...changed({ effect: "heard", aspect: "parts", was: names(old), is: names(now) }),
    ...old.parts.flatMap((part) => {
      const same = now.parts.find(({ name }) => name === part.name);
      return same === undefined ? [] : partAlterations(part, same, now);
    }),
    // Chord symbols are not played.
    ...changed({ effect: "told", aspect: "chords", was: old.chords, is: now.chords }),
  ];
}

function partAlterations(old: Part, now: Part, pattern: Pattern): readonly Alteration[] {
  const part = old.name;
  const [was, is] = [Object.keys(old.variants).sort(), Object.keys(now.variants).sort()];
  const lines = was.flatMap((variant): readonly Alteration[] => {
    if (!Object.hasOwn(now.variants, variant)) return [];
    const bars = barsThatDiffer(old.variants[variant]!, now.variants[variant]!, pattern);
    const named = variant === "" ? {} : { variant };
    return bars.length === 0 ? [] : [{ effect: "heard", aspect: "notes", part, ...named, bars }];
  });
  const sound = changed({ effect: "heard", aspect: "recorded", part, was: filesOf(old), is: filesOf(now) });
  return [...changed({ effect: "heard", aspect: "variants", part, was, is }), ...lines, ...sound];
}

/** What is heard of a part's recordings, so that other bytes under the same name are another recording; `undefined` without any. */
function filesOf({ recorded, staysInKey }: Part): readonly string[] | undefined {
  if (recorded === undefined) return undefined;
  const told = Object.entries(recorded).flatMap(([variant, takes]) =>
    takes.map(({ file, sha256, tempo, beat, starts, first, bars, lines = [] }) =>
      [file, sha256.slice(0, 8), variant, fractionText(tempo), fractionText(beat), starts, first, bars, ...lines].join(
        " ",
      ),
    ),
  );
  return [...told, ...(staysInKey ? ["stays in key"] : [])];
}

/** The numbers of the bars in which one line has a note that the other has not. */
function barsThatDiffer(old: readonly Note[], now: readonly Note[], { bars }: Pattern): readonly number[] {
  const texts = (notes: readonly Note[]): ReadonlySet<string> => new Set(notes.map((note) => JSON.stringify(note)));
  const [left, right] = [texts(old), texts(now)];
  const others = [
    ...old.filter((note) => !right.has(JSON.stringify(note))),
    ...now.filter((note) => !left.has(JSON.stringify(note))),
  ];
  const numbers = others.map(({ position }) => bars.findLast((bar) => compare(bar.position, position) <= 0)?.number);
  return [...new Set(numbers.map((number) => number ?? 0))].sort((a, b) => a - b);
}

/** The keys with a value: an absent key and a key with `undefined` are equal. */
function stated(data: object): ReadonlyMap<string, unknown> {
  return new Map(Object.entries(data).filter(([, value]) => value !== undefined));
}
