import type { Phrase } from "../../../base/index.js";
import type { JournalEvent } from "../../../schema/index.js";
import { isTimestamp } from "../../../time/index.js";
import type { KeyIn } from "../../../words/index.js";
import { type Complaint, complaint } from "../complaint.js";
import { currentEvent } from "../formerEvent.js";
import { takeEventId } from "./id.js";

/**
 * A hand-written validator of events. Every event of a replay is checked, and for a million events a compiled JSON Schema validator is too
 * slow. It agrees with schemas/event.schema.json (tested with valid and mutated events of every kind).
 */
type Check = (value: unknown) => boolean;
type Fields = Readonly<Record<string, Check>>;
interface Shape {
  readonly fields: ReadonlyMap<string, Check>;
  readonly required: readonly string[];
}

/** Longest name of a student, take or drill in a journal, in characters (schemas/event.schema.json). */
export const LONGEST_NAME = 200;
const text =
  (longest: number, shortest = 1): Check =>
  (value) =>
    typeof value === "string" && value.length >= shortest && (value.length <= longest || [...value].length <= longest);
const name = text(LONGEST_NAME);
const id = text(300);
const rung = text(2000, 0);
const number: Check = (value) => typeof value === "number" && Number.isFinite(value);
const notNegative: Check = (value) => number(value) && (value as number) >= 0;
const count: Check = (value) => Number.isInteger(value) && (value as number) >= 1;
const share: Check = (value) => number(value) && (value as number) > 0 && (value as number) < 1;
const list =
  (fits: Check, most: number, least = 0): Check =>
  (value) =>
    Array.isArray(value) && value.length >= least && value.length <= most && value.every(fits);
const keyed = (required: Fields, optional: Fields = {}): Check => {
  const shape = shapeOf(required, optional);
  return (value) => isObject(value) && misfit(value, shape) === undefined;
};
const is =
  (wanted: unknown): Check =>
  (value) =>
    value === wanted;

const gates: readonly Check[] = [
  keyed({ kind: is("clean of last"), clean: count, of: count }),
  keyed({ kind: is("in a row"), count }),
  keyed({ kind: is("sequential"), able: share, unready: share, wronglyLetOn: share, wronglyHeld: share }),
];
const gate: Check = (value) => gates.some((fits) => fits(value));
const measured = keyed(
  {},
  {
    driftMs: number,
    driftPercent: number,
    standardErrorMs: notNegative,
    landingMs: number,
    offsetMs: number,
    accompaniedMs: notNegative,
    aloneMs: notNegative,
    clockMs: notNegative,
    motorMs: notNegative,
  },
);
const orNull =
  (fits: Check): Check =>
  (value) =>
    value === null || fits(value);
/** Drift in ms, standard error in ms, drift in per cent, offset at landing in ms. */
const silenceRow: readonly Check[] = [number, notNegative, number, number].map(orNull);
const silence: Check = (value) =>
  Array.isArray(value) && value.length === silenceRow.length && silenceRow.every((fits, i) => fits(value[i]));
const whole: Check = (value) => Number.isInteger(value) && (value as number) >= 0;
/** Landings left out and asked for, then other notes. */
const leftOut: Check = (value) => Array.isArray(value) && value.length === 4 && value.every(whole);
const code: Check = (value) => typeof value === "string" && value.length <= 100 && /^[A-Z][A-Z0-9_]+$/.test(value);
const takes = (least: number): Check => list(name, 100_000, least);
const drills = list(name, 10_000);

const everywhere: Fields = {
  version: is(2),
  kind: () => true,
  id,
  turn: (value) => count(value) && (value as number) <= 1_000_000_000,
  at: (value) => typeof value === "string" && isTimestamp(value),
  student: name,
  curriculum: name,
};
const leaving: Fields = { drill: name, from: rung, gate, evidence: takes(1), against: takes(0) };

const KINDS: ReadonlyMap<JournalEvent["kind"], Shape> = new Map([
  kind("enrolled", { edition: name }),
  kind(
    "take assessed",
    {
      edition: name,
      drill: name,
      rung,
      take: name,
      verdict: (v) => v === "within" || v === "beyond" || v === "unclear",
    },
    {
      mix: name,
      probability: (v) => notNegative(v) && (v as number) <= 1,
      measured,
      silences: list(silence, 100_000),
      lengths: list(text(100), 100_000),
      leftOut,
      reasons: list(code, 100_000),
      finding: (v) => typeof v === "string" && /^[0-9a-f]{16}$/.test(v),
    },
  ),
  kind("advanced", { ...leaving, to: rung }, { credit: id }),
  kind("gone back", {
    drill: name,
    from: rung,
    to: rung,
    after: count,
    evidence: takes(1),
    lapsed: list(rung, 100_000),
  }),
  kind("drill completed", leaving, { credit: id }),
  kind("drill opened", { drill: name, to: rung, needs: drills }),
  kind(
    "edition changed",
    {
      from: name,
      to: name,
      renamed: list(keyed({ from: name, to: name }), 10_000),
      moved: list(keyed({ drill: name, from: rung, to: rung }), 10_000),
      lost: list(keyed({ drill: name, rung }), 100_000),
      withdrawn: drills,
      reopened: drills,
    },
    { completeAgain: list(name, 10_000, 1) },
  ),
  kind(
    "set by teacher",
    { drill: name, to: rung },
    { teacher: name, because: text(2000), by: (v) => v === "placement test" },
  ),
]);

/** Checks that a value is an event: gives the event as this version writes it, or what is wrong with it. */
export function examineEvent(given: unknown): JournalEvent | Complaint {
  const value = currentEvent(given);
  if (!isObject(value))
    return complaint("EVENT_MALFORMED", "journal-problem.event-not-object", { found: shown(value) });
  if (value.version !== 2) {
    const what = { ...nameOf(value), found: shown(value.version) };
    return {
      ...complaint("EVENT_VERSION_UNKNOWN", "journal-problem.event-version-unknown", what),
      remedy: { key: "journal-problem.event-version-unknown-remedy", parameters: {} },
    };
  }
  const shape = KINDS.get(value.kind as JournalEvent["kind"]);
  if (shape === undefined) {
    const what = { ...nameOf(value), kinds: [...KINDS.keys()], found: shown(value.kind) };
    return complaint("EVENT_KIND_UNKNOWN", "journal-problem.event-kind-unknown", what);
  }
  const key = misfit(value, shape);
  if (key !== undefined) {
    const name = nameOf(value);
    return shape.fields.has(key)
      ? complaint("EVENT_MALFORMED", "journal-problem.event-field-wrong", {
          ...name,
          field: key,
          found: shown(value[key]),
        })
      : complaint("EVENT_MALFORMED", "journal-problem.event-field-unknown", { ...name, field: shown(key) });
  }
  if (value.kind === "take assessed" && !isIdOfTake(value.id as string, value.take as string)) {
    const take = value.take as string;
    const what = { take, id: takeEventId(take), found: shown(value.id) };
    return complaint("EVENT_MALFORMED", "journal-problem.event-id-of-take", what);
  }
  return value as unknown as JournalEvent;
}

/** Name of the first field that is wrong, unknown or missing; `undefined` when all fields are right. */
function misfit(value: Readonly<Record<string, unknown>>, { fields, required }: Shape): string | undefined {
  for (const key in value) {
    const fits = fields.get(key);
    const held = value[key];
    if (fits === undefined || (held !== undefined && !fits(held))) return key;
  }
  for (const key of required) if (value[key] === undefined) return key;
  return undefined;
}

/** The same as `id === takeEventId(take)`, without building that string for every event. */
function isIdOfTake(id: string, take: string): boolean {
  return id.length === takeEventId("").length + take.length && id.startsWith(takeEventId("")) && id.endsWith(take);
}

function kind<Kind extends JournalEvent["kind"]>(kind: Kind, required: Fields, optional: Fields = {}): [Kind, Shape] {
  return [kind, shapeOf({ ...everywhere, ...required }, optional)];
}

function shapeOf(required: Fields, optional: Fields): Shape {
  return { fields: new Map(Object.entries({ ...required, ...optional })), required: Object.keys(required) };
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return value !== null && typeof value === "object" && !Array.isArray(value);
}

function nameOf({ id }: Readonly<Record<string, unknown>>): {
  readonly named: "named" | "nameless";
  readonly id: Shown;
} {
  return typeof id === "string" ? { named: "named", id: shown(id) } : { named: "nameless", id: "" };
}

type Shown = string | (Phrase & { readonly key: KeyIn<"journal-problem"> });

/** A value as a message shows it: on one line, at most 60 characters, without the contents of lists and objects. */
function shown(value: unknown): Shown {
  if (value === undefined) return { key: "journal-problem.nothing", parameters: {} };
  if (Array.isArray(value)) return { key: "journal-problem.list", parameters: { count: value.length } };
  if (value !== null && typeof value === "object") return { key: "journal-problem.object", parameters: {} };
  const whole = JSON.stringify(value) ?? typeof value;
  return whole.length > 60 ? `${whole.slice(0, 57)}...` : whole;
}
