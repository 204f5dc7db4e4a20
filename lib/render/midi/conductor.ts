import { divide, type Fraction, fraction, multiply, subtract, toNumber } from "../../base/index.js";
import type { TrackMessages } from "../../formats/midi/index.js";
import {
  keySignature,
  marker,
  setTempo,
  type TimedMessage,
  text,
  timeSignature,
  trackName,
} from "../../formats/midi/index.js";
import { keySignature as fifthsOf, isMinor, parseKey } from "../../pattern/index.js";
import type { Score } from "../../schema/index.js";
import { barLength, beatOf, type Meter, meterText } from "../../time/index.js";
import { cautionsIn } from "../../words/index.js";
import { type FileWords, rungWords } from "../fileWords.js";
import { silencesHeard } from "../phrases.js";
import { exactly, lengthOf, meteredBars } from "../scoreTime.js";
import type { TickMap } from "../tickMap.js";

const MOST_SIGNS = 7;
/** MIDI clocks to a whole note. */
const CLOCKS = 96;

/** The conductor track, the first of the file: name, tempo, meters, key, and a marker at the start of each phrase, silence, landing and stretch of open bars. */
export function conductorTrack(score: Score, ticks: TickMap, words: FileWords): TrackMessages {
  const messages: TimedMessage[] = [
    { ticks: 0, bytes: trackName(titleOf(score, words)) },
    { ticks: 0, bytes: text(cautionsIn(words).join(" ")) },
    ...ticks.tempi.map((each) => ({ ticks: each.ticks, bytes: setTempo(microsecondsPerQuarter(each.quarters)) })),
    ...meters(score, ticks),
    ...key(score),
    ...markers(score, ticks, words),
  ];
  return { messages, endTicks: ticks.straight(lengthOf(score)) };
}

/** The drill, rung and mix of a score: "half-bar, silence 1/2 bar, tempo 96, mix play". */
function titleOf({ drill, rung, mix }: Score, words: FileWords): string {
  return words.say("sound.title", { drill, rung: rungWords(rung, words), mix });
}

/** A tempo as the format states it, in whole microseconds. */
export function microsecondsPerQuarter(quarters: number): number {
  return Math.round(60e6 / quarters);
}

function meters(score: Score, ticks: TickMap): readonly TimedMessage[] {
  const bars = meteredBars(score);
  const messages: TimedMessage[] = [];
  let last = "";
  const state = (at: number, meter: Meter): void => {
    if (meterText(meter) !== last) messages.push({ ticks: at, bytes: signature(meter) });
    last = meterText(meter);
  };
  // The lead-in is whole bars of the first meter, after a shorter bar for the rest, so that bar 1 starts on a bar line.
  const first = bars[0]!.meter;
  const whole = Math.floor(toNumber(divide(ticks.leadIn, barLength(first))));
  const over = subtract(ticks.leadIn, multiply(barLength(first), fraction(whole)));
  if (over.n > 0) messages.push({ ticks: 0, bytes: shortSignature(over, first) });
  if (whole > 0) state(ticks.straight(subtract(over, ticks.leadIn)), first);
  for (const { position, meter } of bars) state(ticks.straight(position), meter);
  return messages;
}

function signature(meter: Meter): readonly number[] {
  const upper = meter.groups.reduce((sum, size) => sum + size, 0);
  return timeSignature(upper, meter.lower, Math.max(1, Math.round(toNumber(beatOf(meter)) * CLOCKS)));
}

/** The time signature of a bar of `length`, in the note value of the meter or a shorter one; the meter itself when no note value divides the length. */
function shortSignature(length: Fraction, meter: Meter): readonly number[] {
  const lower = Math.max(length.d, meter.lower);
  if (!Number.isInteger(Math.log2(lower)) || lower > 64) return signature(meter);
  return timeSignature(length.n * (lower / length.d), lower, Math.max(1, CLOCKS / lower));
}

function key(score: Score): readonly TimedMessage[] {
  const read = score.key === undefined ? undefined : parseKey(score.key);
  if (!read?.ok) return [];
  const fifths = fifthsOf(read.value);
  // A key with more than seven accidentals is written as its enharmonic key: G sharp major as A flat major.
  const signs = Math.abs(fifths) > MOST_SIGNS ? fifths - 12 * Math.sign(fifths) : fifths;
  return [{ ticks: 0, bytes: keySignature(signs, isMinor(read.value) ? "minor" : "major") }];
}

function markers(score: Score, ticks: TickMap, { say }: FileWords): readonly TimedMessage[] {
  const found: { readonly position: Fraction; readonly text: string }[] = [];
  const firstOf = new Map<number, Score["bars"][number]>();
  for (const bar of score.bars) if (!firstOf.has(bar.phrase)) firstOf.set(bar.phrase, bar);
  for (const [phrase, bar] of firstOf)
    found.push({ position: exactly(bar.position), text: say("sound.phrase", { number: String(phrase) }) });
  for (const { bars, scale } of score.open) {
    const bar = score.bars.find(({ bar }) => bar === bars[0]);
    if (bar) found.push({ position: exactly(bar.position), text: say("sound.open", { scale }) });
  }
  for (const { fromPosition, toPosition, parts, landing } of silencesHeard(score)) {
    if (fromPosition) found.push({ position: exactly(fromPosition), text: say("sound.out", { parts }) });
    if (toPosition && landing !== null)
      found.push({ position: exactly(toPosition), text: say("sound.landing", { parts }) });
  }
  return found.map(({ position, text }) => ({
    ticks: ticks.sounding(position),
    bytes: marker(text),
  }));
}
