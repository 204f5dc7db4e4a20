import { compare, divide, type Fraction, fraction, fractionText, toNumber } from "../../base/index.js";
import { type Drill, doesIn, type Gate, type Ladder, ladderValue, rungs } from "../../drill/index.js";
import { type Key, keyText } from "../../pattern/index.js";
import { sequentialRates } from "../../progress/index.js";
import { barLength, type Swing } from "../../time/index.js";
import { listed } from "../phrases.js";

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

/** A length in print: "1½ bars", "⅜ note", "1¼ whole notes". */
export function lengthText(span: string): string {
  const [, over, under] = /^(\d+)\/(\d+) note$/.exec(span) ?? [];
  if (Number(over) >= Number(under)) {
    const count = fraction(Number(over), Number(under));
    return lengthText(`${mixed(count)} whole note${compare(count, fraction(1)) > 0 ? "s" : ""}`);
  }
  return span.replace(/(?:(\d+) )?\b(\d+\/\d+)\b/, (all, whole, part) =>
    VULGAR[part] ? `${whole ?? ""}${VULGAR[part]}` : all,
  );
}

/** A key or chord with printed accidentals: "B♭ mixolydian", "F♯m7♭5". */
export function withSigns(text: string): string {
  const signs = (written: string): string => written.replaceAll("b", "♭").replaceAll("#", "♯");
  return text
    .replace(/(^|\/|\s)([A-G])(bb?|##?)/g, (_, before, letter, sign) => before + letter + signs(sign))
    .replace(/(b|#)(?=\d)/g, (sign) => signs(sign));
}

export function keyName(key: Key): string {
  return withSigns(keyText(key));
}

const BEATS: Readonly<Record<string, string>> = { "1/4": "♩", "3/8": "♩.", "1/8": "♪", "3/16": "♪." };
const BEAT_NAMES: Readonly<Record<string, string>> = {
  "1": "whole note",
  "3/2": "dotted whole note",
  "1/2": "half note",
  "3/4": "dotted half note",
  "1/16": "sixteenth",
  "3/32": "dotted sixteenth",
};

/** The symbol of a beat unit, or its name when text fonts have no symbol for it. */
export function beatSign(beat: Fraction): string {
  const text = fractionText(beat);
  return BEATS[text] ?? BEAT_NAMES[text] ?? `${text} note`;
}

/** The tempos of a drill: "♩ = 76, 84, 92". A long ladder is shortened as in `valuesText`. */
export function tempoText(drill: Drill): string {
  const ladder = drill.ladders.find(({ parameter }) => parameter === "tempo");
  const values = ladder ? valuesText(ladder) : rungs(drill).at(0).settings.tempo;
  return `${beatSign(drill.beat)} = ${values}`;
}

/** "swing 2 : 1", with the note value when it is not the eighth; empty for straight notes. */
export function swingText({ first, second, subdivision }: Swing): string {
  if (first === second) return "";
  const eighth = subdivision.n === 1 && subdivision.d === 8;
  return `swing ${first} : ${second}${eighth ? "" : ` (${BEAT_NAMES[fractionText(subdivision)] ?? beatSign(subdivision)}s)`}`;
}

/** Most values in a list: our choice; of a longer list the first three and the last are given. */
const MOST_LISTED = 8;

/** The values of a ladder: all of them when they are few, else the first three, the last, and their number. */
export function valuesText(ladder: Ladder, print: (value: string) => string = (value) => value): string {
  const at = (k: number): string => print(ladderValue(ladder, k));
  if (ladder.count <= MOST_LISTED) return Array.from({ length: ladder.count }, (_, k) => at(k)).join(", ");
  return `${at(0)}, ${at(1)}, ${at(2)} … ${at(ladder.count - 1)} (${ladder.count} values)`;
}

/** The form of a take: "a count-in of 1 bar, the riff 4 times, and 1 bar more to land on". */
export function takeText(drill: Drill): string {
  const bar = barLength(drill.pattern.bars[0]!.meter);
  const bars = (length: Fraction): string => {
    const count = divide(length, bar);
    const text = lengthText(`${mixed(count)} bar`);
    return compare(count, fraction(1)) > 0 ? `${text}s` : text;
  };
  const countIn = drill.countIn.n > 0 ? `a count-in of ${bars(drill.countIn)}, ` : "";
  const times = drill.phrases === 1 ? "once" : drill.phrases === 2 ? "twice" : `${drill.phrases} times`;
  const outro = drill.outro.n > 0 ? `, and ${bars(drill.outro)} more to land on` : "";
  return `${countIn}the riff ${times}${outro}`;
}

/** The parts heard in each mix: "To choose from: play (kit and bass), alone (kit)". */
export function mixesText(drill: Drill): string {
  const { settings } = rungs(drill).at(0);
  const mixes = drill.mixes.map((mix) => {
    const heard = [...doesIn(drill, mix, settings)].filter(([, does]) => does !== "off");
    return { name: mix.name, parts: listed(heard.map(([name]) => (name === drill.student ? "your part" : name))) };
  });
  if (mixes.length === 1) return `You hear ${mixes[0]!.parts}`;
  return `To choose from: ${mixes.map(({ name, parts }) => `${name} (${parts})`).join(", ")}`;
}

/** The tolerances of a take, one line for each; empty without tolerances. */
export function toleranceLines({ tolerance, dropout }: Drill): readonly string[] {
  const { drift, landing, steadiness, played } = tolerance;
  const lines: string[] = [];
  if (drift !== undefined && dropout !== undefined) {
    const most = "percent" in drift ? `${plain(drift.percent)}\u00a0% of the tempo` : `${plain(drift.ms)}\u00a0ms`;
    lines.push(`through each silence you speed up or slow down by at most ${most};`);
  }
  if (landing !== undefined && dropout !== undefined)
    lines.push(`where the band returns, your first note is at most ${plain(landing)}\u00a0ms early or late;`);
  if (played !== undefined && dropout !== undefined && played.n > 0)
    lines.push(`of the notes of each silence you play at least ${fractionText(played)};`);
  if (steadiness !== undefined)
    lines.push(`with the band, your steadiness is at most ${plain(steadiness)}\u00a0ms around your own beat.`);
  const last = lines.length - 1;
  return lines.map((line, i) => (i === last ? line.replace(/[;.]$/, ".") : line));
}

/** The condition of a gate for the next rung. */
export function gateLine(gate: Gate): string {
  switch (gate.kind) {
    case "clean of last":
      return gate.clean === gate.of
        ? rowLine(gate.clean)
        : `${gate.clean} of your last ${gate.of} takes on a rung are clean.`;
    case "in a row":
      return rowLine(gate.count);
    case "sequential":
      return `you have shown over several takes (${sequentialRates(gate).fewestTakes} or more) that you are clean about ${share(gate.able)} of the time. Ask your teacher for the count.`;
  }
}

function rowLine(count: number): string {
  return count === 1 ? "one take on a rung is clean." : `${count} takes in a row on a rung are clean.`;
}

/** The rule for going back; empty for a drill without one. */
export function goBackLine({ goBack }: Drill): string {
  if (goBack === undefined) return "";
  const back = goBack.by === 1 ? "the rung before comes back" : `it goes ${goBack.by} rungs back`;
  return `After ${goBack.after === 1 ? "a take" : `${goBack.after} takes in a row`} outside these limits, ${back}.`;
}

export const UNCLEAR_LINE = "A take that cannot be measured well enough counts neither way.";

function share(chance: number): string {
  return `${plain(chance * 100)}\u00a0%`;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(6)));
}

function mixed(count: Fraction): string {
  const whole = Math.floor(toNumber(count));
  const rest = fraction(count.n - whole * count.d, count.d);
  if (rest.n === 0) return String(whole);
  return whole === 0 ? fractionText(rest) : `${whole} ${fractionText(rest)}`;
}
