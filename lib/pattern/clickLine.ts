import { add, compare, type Fraction, failure, fraction, success } from "../base/index.js";
import { beatOf, type Meter, meterText } from "../time/index.js";
import { problem } from "./codes.js";
import type { Frame } from "./compile/bars.js";
import type { Bar, Note } from "./model.js";
import type { Result } from "./problem.js";
import { say } from "./say.js";

/** The voices of a click: on the first beat of a bar, and elsewhere. */
const VOICES = { downbeat: "high click", beat: "click" } as const;

/**
 * Reads a click that is written without a grid: `every beat`, `beats 2 and 4`, `every bar`, `every 2 bars`.
 *
 * A beat is the conventional one of the bar's meter; in an additive meter (2+2+3/8) it is a group. The first beat of a bar is accented and
 * higher, the other beats are not. A click is as long as its beat. Nothing sounds in the pick-up.
 * Problems: CLICK_NOT_READ, CLICK_BEAT_OUTSIDE_BAR, CLICK_DOES_NOT_FILL_PHRASE.
 * @example parseClick("beats 2 and 4", frame) // two notes in each bar of 4/4
 */
export function parseClick(text: string, { bars }: Pick<Frame, "bars">): Result<readonly Note[]> {
  const words = text.trim().toLowerCase().replace(/\s+/g, " ");
  if (words === "every beat") return success(bars.flatMap((bar) => beatsOf(bar)));
  const every = /^every (?:(\d{1,3}) )?bars?$/.exec(words);
  if (every && Number(every[1] ?? 1) >= 1) return everyBars(Number(every[1] ?? 1), bars);
  const beats = /^beats? (\d{1,2}(?:(?:, ?| and |, and )\d{1,2})*)$/.exec(words)?.[1];
  if (beats !== undefined) return onBeats(beats.split(/[^\d]+/).map(Number), bars);
  const message = say("pattern-problem.click-not-read", { found: JSON.stringify(text.slice(0, 40)) });
  const meant = clickMeant(words);
  const remedy =
    meant === undefined ? say("pattern-problem.click-not-read-remedy") : say("pattern-problem.write", { text: meant });
  return failure(problem("CLICK_NOT_READ", message, {}, remedy));
}

function everyBars(count: number, bars: readonly Bar[]): Result<readonly Note[]> {
  if (bars.length % count === 0)
    return success(bars.flatMap((bar, i) => (i % count === 0 ? beatsOf(bar).slice(0, 1) : [])));
  const message = say("pattern-problem.click-does-not-fill-phrase", { bars: bars.length, found: count });
  const fitting = Array.from({ length: count }, (_, i) => count - i).find((fewer) => bars.length % fewer === 0)!;
  const remedy = say("pattern-problem.write", { text: fitting === 1 ? "every bar" : `every ${fitting} bars` });
  return failure(problem("CLICK_DOES_NOT_FILL_PHRASE", message, {}, remedy));
}

function onBeats(beats: readonly number[], bars: readonly Bar[]): Result<readonly Note[]> {
  const short = bars.find((bar) => beats.some((beat) => beat < 1 || beat > beatsOf(bar).length));
  if (short === undefined) return success(bars.flatMap((bar) => beatsOf(bar).filter((_, i) => beats.includes(i + 1))));
  const most = beatsOf(short).length;
  const given = { bar: short.number, meter: meterText(short.meter), most };
  const found = String(beats.find((beat) => beat < 1 || beat > most));
  const message = say("pattern-problem.click-beat-outside-bar", { ...given, found });
  const remedy = say("pattern-problem.click-beat-outside-bar-remedy", { most });
  return failure(problem("CLICK_BEAT_OUTSIDE_BAR", message, {}, remedy));
}

/** A click on each beat of a bar. */
function beatsOf({ position, meter }: Bar): readonly Note[] {
  let at = position;
  return lengthsOf(meter).map((length, i): Note => {
    const note = { position: at, length, voice: i === 0 ? VOICES.downbeat : VOICES.beat, accent: i === 0 };
    at = add(at, length);
    return note;
  });
}

/** The lengths of the beats of a bar, in whole notes. */
function lengthsOf(meter: Meter): readonly Fraction[] {
  if (meter.kind === "additive") return meter.groups.map((size) => fraction(size, meter.lower));
  const total = meter.groups.reduce((sum, size) => sum + size, 0);
  const beat = beatOf(meter);
  const lengths: Fraction[] = [];
  for (let left = fraction(0); compare(left, fraction(total, meter.lower)) < 0; left = add(left, beat))
    lengths.push(beat);
  return lengths;
}

/** What other words for a click were meant for (from memory); `undefined` when they are none. */
function clickMeant(words: string): string | undefined {
  if (/^(each|all|every)( the)? (beats?|quarters?|crotchets?)$|^(beats?|quarters?|on|yes|true|1|1 beat)$/.test(words))
    return "every beat";
  if (
    /^(once )?(a|each|per|the|one in a) (bar|measure)$|^(every|each) (measure|downbeat)$|^(bars?|downbeats?)$/.test(
      words,
    )
  )
    return "every bar";
  if (/^(every|each) (other|second|two) (bar|measure)s?$|^(once )?(in|every) (two|2) (bar|measure)s$/.test(words))
    return "every 2 bars";
  if (/back ?beat/.test(words)) return "beats 2 and 4";
  const [, count] = /^every (\d{1,3}) measures?$/.exec(words) ?? [];
  if (count !== undefined) return `every ${count} bars`;
  const numbers = /^(?:on )?(?:beats? )?(\d{1,2})(?:(?: ?[,&+] ?| and )(\d{1,2}))*$/.test(words)
    ? words.match(/\d+/g)!
    : undefined;
  if (numbers === undefined) return undefined;
  return numbers.length === 1 ? `beat ${numbers[0]}` : `beats ${numbers.slice(0, -1).join(", ")} and ${numbers.at(-1)}`;
}
