import {
  add,
  compare,
  divide,
  type Fraction,
  floor,
  fractionText,
  negate,
  random,
  subtract,
  ZERO,
} from "../../base/index.js";
import type { Pattern } from "../../pattern/index.js";
import type { Dropout } from "../../schema/index.js";
import { resolveSpan, type Span, spanEnd, spanStart } from "../../time/index.js";
import { onlyMeter } from "../length.js";
import type { Drill, DropoutPlace, Settings } from "../model.js";
import { parsePartsInTake, partsInPhrase } from "../partsInTake.js";
import { settingsText } from "../rung/settings.js";
import { lengthIndexIn, readSilenceLengths } from "../silenceLengths.js";
import { barsTouched } from "./bars.js";
import { joined, outside, type Stretch } from "./stretch.js";
import { phraseStart, type TakeContext, takeLength } from "./take.js";

/**
 * The silences of a take, in order, in whole notes from the downbeat of bar 1; none in a drill without dropout. The outro has none.
 *
 * A random place is a pure function of the seed, the settings, the phrase and, when it is given, the draw of the take. Throws `RangeError`
 * when a random silence has no place, which `compileDrill` reports as a problem before.
 */
export function placeSilences(drill: Drill, settings: Settings, takeDraw?: string): readonly Stretch[] {
  const place = drill.dropout?.place;
  if (place === undefined || settings.dropout === undefined) return [];
  const lengths = readSilenceLengths(settings.dropout);
  if (lengths === undefined) throw new RangeError(`not a length of silence: ${settings.dropout}`);
  const { pattern } = drill;
  const byLength = lengths.lengths.map((length) =>
    place.at === "random" ? silencesToDraw(pattern, length) : silencesInPhrase(pattern, length, place),
  );
  const silences: Stretch[] = [];
  for (let phrase = 1; phrase <= drill.phrases; phrase++) {
    const start = phraseStart(drill, phrase);
    const places = byLength[lengthIndexIn(lengths, phrase)]!;
    const inPhrase =
      place.at === "random"
        ? [draw({ drill, settings, phrase, choices: places, seed: seedOf(place.seed, takeDraw) })]
        : places;
    for (const { from, to } of inPhrase) silences.push({ from: add(start, from), to: add(start, to) });
  }
  return silences;
}

/** The silences of one phrase at a stated place, from the downbeat of the phrase. A silence that does not fit begins before 0 or ends after the phrase. */
export function silencesInPhrase(
  pattern: Pattern,
  span: Span,
  place: Exclude<DropoutPlace, { at: "random" }>,
): readonly Stretch[] {
  if (place.at === "start") return [{ from: ZERO, to: spanEnd(span, ZERO, pattern.bars) }];
  const lines = barLines(pattern);
  const ends = place.at === "end" ? [pattern.length] : place.bars.map((bar) => lines[bar]!);
  return silencesBefore(ends, span, pattern);
}

/**
 * The silences from which a random place is drawn. Each ends on a bar line of the phrase (its end included) and begins after the first
 * bar at the earliest, so that each phrase begins with accompaniment.
 */
export function silencesToDraw(pattern: Pattern, span: Span): readonly Stretch[] {
  const lines = barLines(pattern);
  return silencesBefore(lines.slice(1), span, pattern).filter(({ from }) => compare(from, lines[1]!) >= 0);
}

/** The dropouts of the score, with their parts and landing. */
export function scoreDropouts(take: TakeContext): readonly Dropout[] {
  const total = takeLength(take.drill);
  return take.silences.map((silence) => {
    const to = take.time.at(silence.to);
    const parts = [...partsDroppingIn(take, silence)].sort();
    return {
      from: take.time.at(silence.from),
      to,
      fromPosition: fractionText(silence.from),
      toPosition: fractionText(silence.to),
      bars: barsTouched(silence, take.bars),
      parts,
      silent: isSilent(take, silence),
      landing: compare(silence.to, total) < 0 ? to : null,
    };
  });
}

/**
 * The stretches with accompaniment: the count-in, and the take except where all sounding parts drop. What parts do counts and not their
 * notes: the rests of a part make no silence.
 */
export function audible(take: TakeContext): readonly Stretch[] {
  const whole = { from: negate(take.drill.countIn), to: takeLength(take.drill) };
  if (someDoes(take, "plays")) return outside(whole, []);
  const nothing = [{ from: ZERO, to: whole.to }];
  const silent = take.silences.filter((silence) => isSilent(take, silence));
  return outside(whole, someDoes(take, "drops") ? joined(silent) : nothing);
}

/** The parts that drop in a silence: where more parts drop as the take goes on, those of its phrase. The student's part drops in all when it drops at all. */
export function partsDroppingIn({ drill, settings, does }: TakeContext, { from }: Stretch): ReadonlySet<string> {
  const phrase = 1 + floor(divide(from, drill.pattern.length));
  const now = settings.parts === undefined ? undefined : partsInPhrase(parsePartsInTake(settings.parts), phrase);
  const drops = (name: string): boolean => now === undefined || name === drill.student || now.includes(name);
  return new Set([...does].flatMap(([name, doing]) => (doing === "drops" && drops(name) ? [name] : [])));
}

/** Whether nothing is left to play to in a silence. */
function isSilent(take: TakeContext, silence: Stretch): boolean {
  const dropping = partsDroppingIn(take, silence);
  return [...take.does].every(([name, doing]) => doing === "off" || dropping.has(name));
}

interface Draw {
  readonly drill: Drill;
  readonly settings: Settings;
  readonly phrase: number;
  readonly choices: readonly Stretch[];
  readonly seed: string;
}

/** The silence drawn for a phrase. Without an outro, the silence of the last phrase does not end at its end if it can be elsewhere, because there would be no landing. */
function draw({ drill, settings, phrase, choices, seed }: Draw): Stretch {
  const returning = choices.filter(({ to }) => compare(to, drill.pattern.length) < 0);
  const open = phrase === drill.phrases && drill.outro.n === 0 && returning.length > 0 ? returning : choices;
  if (open.length === 0) throw new RangeError(`a silence of ${settings.dropout} fits nowhere in the phrase`);
  return open[random(`${seed}/${settingsText(settings)}/phrase ${phrase}`).below(open.length)]!;
}

function silencesBefore(ends: readonly Fraction[], span: Span, pattern: Pattern): readonly Stretch[] {
  const meter = onlyMeter(pattern);
  const length = meter && resolveSpan(span, meter);
  return ends.map((to) => ({ from: length ? subtract(to, length) : spanStart(span, to, pattern.bars), to }));
}

/** The bar lines of a pattern: bar 1 begins at entry 0, bar k ends at entry k. */
function barLines(pattern: Pattern): readonly Fraction[] {
  return [...pattern.bars.map((bar) => bar.position), pattern.length];
}

function seedOf(seed: number, takeDraw: string | undefined): string {
  return takeDraw === undefined ? `${seed}` : `${seed}/draw ${takeDraw}`;
}

function someDoes(take: TakeContext, doing: "plays" | "drops"): boolean {
  return [...take.does.values()].includes(doing);
}
