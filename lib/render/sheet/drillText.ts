import { compare, divide, type Fraction, fraction, fractionText, parseFraction, toNumber } from "../../base/index.js";
import {
  type Drill,
  doesIn,
  type Gate,
  type Ladder,
  ladderValue,
  lengthTextsIn,
  parsePartsInTake,
  rungs,
} from "../../drill/index.js";
import { type Key, keyText } from "../../pattern/index.js";
import { sequentialRates } from "../../progress/index.js";
import { barLength, type Swing } from "../../time/index.js";
import { keyTold } from "../../words/index.js";
import { grouped } from "../phrases.js";
import type { SheetWords } from "./words.js";

const VULGAR: Readonly<Record<string, string>> = {
  "1/2": "½",
  "1/4": "¼",
  "3/4": "¾",
  "1/3": "⅓",
  "2/3": "⅔",
  "1/8": "⅛",
  "3/8": "⅜",
  "5/8": "⅝",
  "7/8": "⅞",
};

/** A canonical length in print: "1½ bars", "⅜ note", "1¼ whole notes". */
export function lengthText(span: string, words: SheetWords): string {
  const [, written = "", name = ""] = /^([\d/ ]+) (bar|beat|note)s?$/.exec(span) ?? [];
  const count = parseFraction(written);
  if (count === undefined) return span;
  const many = compare(count, fraction(1)) > 0 ? "more" : "up-to-one";
  const unit = name === "note" && compare(count, fraction(1)) >= 0 ? "whole-note" : (name as "bar" | "beat" | "note");
  return words.say("value.length", { unit, many, count: toNumber(count), amount: mixed(count) });
}

/** "kit", "kit and bass", "kit, bass and lead". */
export function listed(names: readonly string[], words: SheetWords): string {
  if (names.length < 2) return names[0] ?? "";
  return words.say("sheet.list", { others: names.slice(0, -1), last: names.at(-1)! });
}

/** The lengths of silence of a rung in print: "1½ bars", or "½ bar growing to 1½ bars". */
export function silencesText(dropout: string, words: SheetWords): string {
  const lengths = lengthTextsIn(dropout);
  const [shortest = dropout, longest = dropout] = [lengths[0], lengths.at(-1)];
  const from = lengthText(shortest, words);
  return shortest === longest ? from : words.say("value.growing", { from, to: lengthText(longest, words) });
}

/** A key or chord with printed accidentals: "B♭ mixolydian", "F♯m7♭5". */
export function withSigns(text: string): string {
  const signs = (written: string): string => written.replaceAll("b", "♭").replaceAll("#", "♯");
  return text
    .replace(/(^|\/|\s)([A-G])(bb?|##?)/g, (_, before, letter, sign) => before + letter + signs(sign))
    .replace(/(b|#)(?=\d)/g, (sign) => signs(sign));
}

/** A key in the words of a language: "B♭ mixolydian", "B mixolydisch". */
export function keyName(key: Key, { say }: SheetWords): string {
  return keyTold(keyText(key), say);
}

const BEATS: Readonly<Record<string, string>> = { "1/4": "♩", "3/8": "♩.", "1/8": "♪", "3/16": "♪." };
const BEAT_NAMES = {
  "1": "whole",
  "3/2": "dotted-whole",
  "1/2": "half",
  "3/4": "dotted-half",
  "1/16": "sixteenth",
  "3/32": "dotted-sixteenth",
} as const;

function nameOf(value: string): (typeof BEAT_NAMES)[keyof typeof BEAT_NAMES] | undefined {
  return Object.hasOwn(BEAT_NAMES, value) ? BEAT_NAMES[value as keyof typeof BEAT_NAMES] : undefined;
}

/** The symbol of a beat unit, or its name when text fonts have no symbol for it. */
export function beatSign(beat: Fraction, words: SheetWords): string {
  const text = fractionText(beat);
  const name = nameOf(text);
  return (
    BEATS[text] ?? (name ? words.say("sheet.note", { value: name }) : words.say("sheet.other-note", { value: text }))
  );
}

/** The tempos of a drill: "♩ = 76, 84, 92". A long ladder is shortened as in `valuesText`. */
export function tempoText(drill: Drill, words: SheetWords): string {
  const ladder = drill.ladders.find(({ parameter }) => parameter === "tempo");
  const values = ladder ? valuesText(ladder, words) : rungs(drill).at(0).settings.tempo;
  const at = `${beatSign(drill.beat, words)} = ${values}`;
  const { rise } = drill.fixed;
  return rise === undefined || rise === "none" ? at : words.say("sheet.rising", { at, rise: riseSaid(rise, words) });
}

/** How the tempo rises inside a take: "4 after every 2 phrases"; "no rise". */
export function riseSaid(rise: string, { say }: SheetWords): string {
  const [, by = "", each] = /^(\S+) each (\d+) phrases?$/.exec(rise) ?? [];
  return each === undefined ? say("value.no-rise") : say("value.rise", { by, each: Number(each) });
}

/** "swing 2 : 1", with the note value when it is not the eighth; empty for straight notes. */
export function swingText({ first, second, subdivision }: Swing, { say }: SheetWords): string {
  if (first === second) return "";
  if (subdivision.n === 1 && subdivision.d === 8) return say("sheet.swing", { first, second });
  const value = fractionText(subdivision);
  const name = nameOf(value);
  const notes = name ? say("sheet.notes", { value: name }) : say("sheet.other-notes", { value });
  return say("sheet.swing-of", { first, second, notes });
}

/** Most values in a list: our choice; of a longer list the first three and the last are given. */
const MOST_LISTED = 8;

/** The values of a ladder: all of them when they are few, else the first three, the last, and their number. */
export function valuesText(
  ladder: Ladder,
  words: SheetWords,
  print: (value: string) => string = (value) => value,
): string {
  const { count } = ladder;
  const at = (k: number): string => print(ladderValue(ladder, k));
  if (count <= MOST_LISTED) return Array.from({ length: count }, (_, k) => at(k)).join(", ");
  return words.say("sheet.values", {
    first: [at(0), at(1), at(2)],
    last: at(count - 1),
    count,
    shown: grouped(count),
  });
}

/** The form of a take: "A count-in of 1 bar, the riff 4 times, and 1 bar more to land on." */
export function takeText(drill: Drill, words: SheetWords): string {
  const bar = barLength(drill.pattern.bars[0]!.meter);
  const bars = (length: Fraction): string => {
    const count = divide(length, bar);
    const many = compare(count, fraction(1)) > 0 ? "more" : "up-to-one";
    return words.say("value.length", { unit: "bar", many, count: toNumber(count), amount: mixed(count) });
  };
  return words.say("sheet.take", {
    start: drill.countIn.n > 0 ? "counted-in" : "at-once",
    countIn:
      drill.countInVoice === undefined
        ? bars(drill.countIn)
        : words.say("sheet.counted-on", { length: bars(drill.countIn), voice: drill.countInVoice }),
    times: words.say("sheet.times", { count: drill.phrases }),
    end: drill.outro.n > 0 ? "outro" : "none",
    outro: bars(drill.outro),
  });
}

/** The parts that drop, as text: "kit", or "first kit, then kit and bass" where more drop as a take goes on. */
export function partsText(parts: string, words: SheetWords): string {
  const sets = parsePartsInTake(parts).sets.map((set) => listed(set, words));
  return sets.reduce((before, after) => words.say("value.then", { before, after }));
}

/** The parts heard in each mix: "To choose from: play (kit and bass), alone (kit)." */
export function mixesText(drill: Drill, words: SheetWords): string {
  const { settings } = rungs(drill).at(0);
  const mixes = drill.mixes.map((mix) => {
    const heard = [...doesIn(drill, mix, settings)].filter(([, does]) => does !== "off");
    const names = heard.map(([name]) => (name === drill.student ? words.say("sheet.your-part") : name));
    return { name: mix.name, parts: listed(names, words) };
  });
  if (mixes.length === 1) return words.say("sheet.you-hear", { parts: mixes[0]!.parts });
  return words.say("sheet.to-choose", { mixes: mixes.map((mix) => words.say("sheet.mix", mix)) });
}

/** The tolerances of a take, one line for each; empty without tolerances. */
export function toleranceLines({ tolerance, dropout }: Drill, { say }: SheetWords): readonly string[] {
  const { drift, landing, steadiness, played } = tolerance;
  const conditions: string[] = [];
  if (drift !== undefined && dropout !== undefined)
    conditions.push(
      "percent" in drift
        ? say("sheet.drift-percent", { most: drift.percent })
        : say("sheet.drift-ms", { most: drift.ms }),
    );
  if (landing !== undefined && dropout !== undefined) conditions.push(say("sheet.landing", { most: landing }));
  if (played !== undefined && dropout !== undefined && played.n > 0)
    conditions.push(say("sheet.played", { share: fractionText(played) }));
  if (steadiness !== undefined) conditions.push(say("sheet.steadiness", { most: steadiness }));
  const last = conditions.length - 1;
  return conditions.map((condition, i) => say("sheet.condition", { condition, place: i === last ? "last" : "before" }));
}

/** The condition of a gate for the next rung. */
export function gateLine(gate: Gate, { say }: SheetWords): string {
  switch (gate.kind) {
    case "clean of last":
      return gate.clean === gate.of
        ? say("sheet.in-a-row", { count: gate.clean })
        : say("sheet.clean-of-last", { clean: gate.clean, of: gate.of });
    case "in a row":
      return say("sheet.in-a-row", { count: gate.count });
    case "sequential":
      return say("sheet.sequential", { fewest: sequentialRates(gate).fewestTakes, percent: gate.able * 100 });
  }
}

/** The rule for going back; empty for a drill without one. */
export function goBackLine({ goBack }: Drill, { say }: SheetWords): string {
  return goBack === undefined ? "" : say("sheet.go-back", { after: goBack.after, by: goBack.by });
}

/** A count in print: "1½". */
function mixed(count: Fraction): string {
  const whole = Math.floor(toNumber(count));
  const rest = fraction(count.n - whole * count.d, count.d);
  if (rest.n === 0) return String(whole);
  const part = fractionText(rest);
  if (VULGAR[part] !== undefined) return `${whole || ""}${VULGAR[part]}`;
  return whole === 0 ? part : `${whole} ${part}`;
}
