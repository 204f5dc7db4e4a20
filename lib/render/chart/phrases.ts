import { beatsOver } from "../../base/index.js";
import type { Score } from "../../schema/index.js";
import type { ChartWords } from "./words.js";

/** A time span, seconds from the downbeat of bar 1. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** One phrase of the pattern in a take, or the outro after the last. */
export interface Phrase extends Span {
  readonly number: number;
  readonly isOutro: boolean;
  readonly bars: readonly Span[];
}

/** Two times closer than this, in seconds, are equal: times in a score are rounded. */
const SAME = 1e-6;

/** The phrases of a score with their bars; one phrase of one bar for a score without bars. */
export function phrasesOf(score: Score): Phrase[] {
  const bars = score.bars.map((bar, i) => ({ ...bar, to: score.bars[i + 1]?.at ?? score.duration }));
  if (bars.length === 0) {
    const whole = { from: 0, to: score.duration };
    return [{ ...whole, number: 1, isOutro: false, bars: [whole] }];
  }
  const phrases: { number: number; bars: Span[] }[] = [];
  for (const { phrase, at, to } of bars) {
    if (phrases.at(-1)?.number !== phrase) phrases.push({ number: phrase, bars: [] });
    phrases.at(-1)!.bars.push({ from: at, to });
  }
  const first = phrases[0]!.bars.length;
  return phrases.map(({ number, bars: own }, i) => ({
    number,
    isOutro: i > 0 && i === phrases.length - 1 && own.length < first,
    bars: own,
    from: own[0]!.from,
    to: own.at(-1)!.to,
  }));
}

/** Consecutive phrases with the same content. */
export interface AlikePhrases {
  readonly phrase: Phrase;
  readonly last: number;
}

/** Groups consecutive phrases with the same notes, silences and expected onsets at the same times from the start of the phrase. */
export function alikePhrases(score: Score): AlikePhrases[] {
  const alike: { phrase: Phrase; last: number; happens: string }[] = [];
  const happenings = happeningsIn(score);
  for (const phrase of phrasesOf(score)) {
    const happens = `${phrase.isOutro};${happenings(phrase)}`;
    const before = alike.at(-1);
    if (before?.happens === happens) before.last = phrase.number;
    else alike.push({ phrase, last: phrase.number, happens });
  }
  return alike;
}

/** A function that gives the content of a span as a text, with times from its start. It must be called for spans in order of time. */
function happeningsIn(score: Score): (span: Span) => string {
  const notes = [
    ...score.expected.map(({ at, accent }) => ({ at, says: accent === true ? "X" : "x" })),
    ...score.parts.flatMap(({ name, notes: own }) =>
      own.map(({ at, seconds }) => ({ at, says: `${name} ${seconds.toFixed(3)}` })),
    ),
  ].sort((a, b) => a.at - b.at);
  const stretches = [
    ...score.dropouts.map(({ from, to, parts, landing }) => ({
      from,
      to,
      says: `${parts.join("+")} ${landing !== null}`,
    })),
    ...score.open.map(({ from, to, scale }) => ({ from, to, says: scale })),
  ];
  let next = 0;
  return ({ from, to }) => {
    const since = (at: number): string => (at - from).toFixed(3);
    const said: string[] = [since(to)];
    while (next < notes.length && notes[next]!.at < from - SAME) next++;
    for (; next < notes.length && notes[next]!.at < to - SAME; next++)
      said.push(`${since(notes[next]!.at)} ${notes[next]!.says}`);
    for (const each of stretches) {
      if (!overlap(each, { from, to })) continue;
      said.push(`${since(Math.max(from, each.from))} ${since(Math.min(to, each.to))} ${each.says}`);
    }
    return said.join(";");
  };
}

/** Whether two spans overlap by more than an instant. */
export function overlap(a: Span, b: Span): boolean {
  return a.from < b.to - SAME && b.from < a.to - SAME;
}

/** Whether a time is in a span, its end excluded. */
export function isIn(at: number, { from, to }: Span): boolean {
  return at >= from - SAME && at < to - SAME;
}

/** A time as bar and beat: "bar 4, beat 3"; in seconds for a score without bars. */
export function placeText(score: Score, at: number, { say }: ChartWords): string {
  const index = Math.max(
    0,
    score.bars.findLastIndex((bar) => bar.at <= at + SAME),
  );
  const bar = score.bars[index];
  if (bar === undefined) return say("chart.seconds", { seconds: Math.round(10 * at) / 10 });
  return say("chart.place", { bar: bar.bar, beat: 1 + beatsOver(score, bar.at, at) });
}
