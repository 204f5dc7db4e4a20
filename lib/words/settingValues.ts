import { compare, fraction, type MessageText, type Phrase, parseFraction, toNumber } from "../base/index.js";
import type { Given, KeyIn } from "./catalogueOf.js";
import type { MessageParameters } from "./generated/parameters.js";

/** Words a message of the topic `value`. */
export type SayValue = <Key extends KeyIn<"value">>(key: Key, ...given: Given<Key>) => string;

interface AnyMessage {
  readonly key: string;
  readonly parameters: object;
}

/** Topics in which `length` is how long a silence is, as courses write it. */
const OF_SILENCES = /^(?:report|school)\./;

/** A message whose settings, however deep in it, have values for people: lengths (also those of silences in reports), growing silences and parts, keys, bars. */
export function withValuesTold<M extends AnyMessage>(message: M, say: SayValue): M {
  const isOfSilence = (name: string): boolean => name === "length" && OF_SILENCES.test(message.key);
  const parameters = Object.entries(message.parameters).map(([name, value]) => [
    name,
    typeof value === "string" && isOfSilence(name) ? lengthsTold(value, say) : told(value, say),
  ]);
  if (message.key !== "setting.one") return { ...message, parameters: Object.fromEntries(parameters) };
  const { parameter, value, ...rest } = message.parameters as MessageParameters["setting.one"];
  const said = typeof value === "string" ? valueTold(parameter, value, say) : value;
  return { ...message, parameters: { parameter, value: said, ...rest } };
}

/**
 * A value of a setting for people: "1/2 bar growing to 2 bars", "kit, then kit and bass", "5 and 6"; what is no such value, as it is.
 */
function valueTold(parameter: string, value: string, say: SayValue): MessageText {
  switch (parameter) {
    case "dropout":
      return lengthsTold(value, say);
    case "parts":
      return partsTold(value, say);
    case "key":
      return keyTold(value, say);
    case "rise": {
      const [, by, each] = /^(\S+) each (\d+) phrases?$/.exec(value) ?? [];
      if (value === "none") return say("value.no-rise");
      return by === undefined ? value : say("value.rise", { by, each: Number(each) });
    }
    case "open":
      if (value === "none") return say("value.no-open-bars");
      return /^\d+(\+\d+)+$/.test(value) ? value.split("+") : value;
    default:
      return value;
  }
}

function told(value: unknown, say: SayValue): unknown {
  if (Array.isArray(value)) return value.map((each) => told(each, say));
  const isMessage = typeof value === "object" && value !== null && "key" in value && "parameters" in value;
  return isMessage ? withValuesTold(value as Phrase, say) : value;
}

/** Lengths of silence, from the first to the last where they grow. */
function lengthsTold(value: string, say: SayValue): string {
  const lengths = value.replace(/ by .+$| each \d+ phrases?$/, "").split(/ to | then /);
  const said = lengths.map((length) => lengthTold(length, say));
  const [from, to] = [said[0], said.at(-1)];
  if (from === undefined || to === undefined || said.includes(undefined)) return value;
  return said.length === 1 ? from : say("value.growing", { from, to });
}

function lengthTold(length: string, say: SayValue): string | undefined {
  const [, amount = "", name = ""] = /^([\d/ ]+) (bar|beat|note)s?$/.exec(length) ?? [];
  const count = parseFraction(amount);
  if (count === undefined) return undefined;
  const many = compare(count, fraction(1)) > 0 ? "more" : "up-to-one";
  const unit = name === "note" && compare(count, fraction(1)) >= 0 ? "whole-note" : (name as "bar" | "beat" | "note");
  return say("value.length", { unit, many, count: toNumber(count), amount });
}

/** Parts that fall silent, in the order in which they do. */
function partsTold(value: string, say: SayValue): MessageText {
  const sets = value.replace(/ each \d+ phrases?$/, "").split(" > ");
  const lists = sets.map((set): MessageText => {
    const names = set.split("+");
    return names.length < 2 ? set : say("value.list", { others: names.slice(0, -1), last: names.at(-1)! });
  });
  return lists.reduce((before, after) => say("value.then", { before, after }));
}

const SIGNS: Readonly<Record<string, string>> = { "": "natural", b: "flat", "#": "sharp" };

/**
 * The name of a pitch class, "Bb", in a sentence; `minor-tonic` where it is the tonic of a minor key, which some languages write small. What is no
 * pitch class comes back as it is.
 *
 * @example
 * const { say } = wordsOf(english, valueInEnglish);
 * tonicTold("Bb", say); // "B♭"
 */
export function tonicTold(written: string, say: SayValue, key: "tonic" | "minor-tonic" = "tonic"): string {
  const [, letter = "", sign = ""] = /^([A-G])([b#♭♯]?)$/.exec(written) ?? [];
  const name = SIGNS[sign.replace("♭", "b").replace("♯", "#")];
  if (letter === "" || name === undefined) return written;
  return say(`value.${key}`, { note: `${letter.toLowerCase()}-${name}` as MessageParameters["value.tonic"]["note"] });
}

const MODES: readonly string[] = [
  ...["major", "minor", "dorian", "phrygian", "lydian", "mixolydian", "locrian", "harmonic-minor", "melodic-minor"],
  ...["major-pentatonic", "minor-pentatonic", "blues"],
];

/**
 * A key as people say it: "D dorian", "B♭ major"; in other languages by their own names of notes and modes.
 *
 * @example
 * const { say } = wordsOf(english, valueInEnglish);
 * keyTold("Bb major", say); // "B♭ major"
 */
export function keyTold(value: string, say: SayValue): string {
  const [, written = "", scale = "", way] = /^([A-G][b#♭♯]?) (.+?)(?: octave (higher|lower))?$/.exec(value) ?? [];
  if (written === "") return value;
  const tonic = tonicTold(written, say, /\bminor\b/.test(scale) ? "minor-tonic" : "tonic");
  const known = scale.replaceAll(" ", "-");
  const mode = (MODES.includes(known) ? known : "other") as MessageParameters["value.key-name"]["mode"];
  const key = say("value.key-name", { mode, tonic, scale });
  return way === undefined ? key : say("value.key-octave", { key, way: way as "higher" | "lower" });
}
