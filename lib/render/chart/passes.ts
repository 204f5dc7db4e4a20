import type { Score } from "../../schema/index.js";

/** A time span, seconds from the downbeat of bar 1. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** One pass of the pattern in a take, or the landing after the last. */
export interface Pass extends Span {
  readonly number: number;
  readonly isLanding: boolean;
  readonly bars: readonly Span[];
}

/** Two times closer than this, in seconds, are equal: times in a score are rounded. */
const SAME = 1e-6;

/** The passes of a score with their bars; one pass of one bar for a score without bars. */
export function passesOf(score: Score): Pass[] {
  const bars = score.bars.map((bar, i) => ({ ...bar, to: score.bars[i + 1]?.at ?? score.duration }));
  if (bars.length === 0) {
    const whole = { from: 0, to: score.duration };
    return [{ ...whole, number: 1, isLanding: false, bars: [whole] }];
  }
  const passes: { number: number; bars: Span[] }[] = [];
  for (const { phrase, at, to } of bars) {
    if (passes.at(-1)?.number !== phrase) passes.push({ number: phrase, bars: [] });
    passes.at(-1)!.bars.push({ from: at, to });
  }
  const first = passes[0]!.bars.length;
  return passes.map(({ number, bars: own }, i) => ({
    number,
    isLanding: i > 0 && i === passes.length - 1 && own.length < first,
    bars: own,
    from: own[0]!.from,
    to: own.at(-1)!.to,
  }));
}

/** Consecutive passes with the same content. */
export interface AlikePasses {
  readonly pass: Pass;
  readonly last: number;
}

/** Groups consecutive passes with the same notes, silences and expected onsets at the same times from the start of the pass. */
export function alikePasses(score: Score): AlikePasses[] {
  const alike: { pass: Pass; last: number; happens: string }[] = [];
  const happenings = happeningsIn(score);
  for (const pass of passesOf(score)) {
    const happens = `${pass.isLanding};${happenings(pass)}`;
    const before = alike.at(-1);
    if (before?.happens === happens) before.last = pass.number;
    else alike.push({ pass, last: pass.number, happens });
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
    ...score.dropouts.map(({ from, to, parts, reentry }) => ({
      from,
      to,
      says: `${parts.join("+")} ${reentry !== null}`,
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
export function placeText(score: Score, at: number): string {
  const index = Math.max(
    0,
    score.bars.findLastIndex((bar) => bar.at <= at + SAME),
  );
  const bar = score.bars[index];
  if (bar === undefined) return `${at.toFixed(1)} s`;
  const beat = 1 + (at - bar.at) / score.beat;
  return `bar ${bar.bar}, beat ${Math.round(beat * 100) / 100}`;
}
