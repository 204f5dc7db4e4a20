import { beatsOver, columnsOf, padColumns } from "../../../base/index.js";
import type { Score } from "../../../schema/index.js";
import { silencesHeard } from "../../phrases.js";
import { isIn, overlap, phrasesOf, type Span } from "../phrases.js";
import { type ChartWords, ENGLISH } from "../words.js";

/** Cells to a bar; our choice: silences of half and quarter bars are visible. */
const CELLS = 4;
/** Most bars on a line; longer phrases continue on the next line. */
const BARS_PER_LINE = 4;

/** Fewest columns for the name of a phrase. */
const NAME = 9;

/** Seconds by which equal times of a score may differ: they are rounded to the nanosecond. */
const SAME_SECONDS = 1e-6;
/** Beats by which equal lengths may differ for that. */
const SAME_BEATS = 1e-4;

const SOUNDS = "━";
const THINNER = "─";
const SILENT = "·";
const RESTS = "╌";
const OPEN = "~";

/**
 * The key of `textStrip` for the marks that occur in the score: one line with its line end.
 *
 * @example
 * textStripKey(score).includes("everything sounds") // true
 */
export function textStripKey(score: Score, { say }: ChartWords = ENGLISH): string {
  const silences = silencesHeard(score);
  const isWhole = score.parts.every(({ does, student }) => student || does !== "off");
  const marks = [
    `${SOUNDS} ${say(isWhole ? "chart.everything-sounds" : "chart.sounds")}`,
    restsOf(score).length > 0 ? `${RESTS} ${say("chart.band-rests")}` : "",
    silences.some((dropout) => !dropout.silent) ? `${THINNER} ${say("chart.some-parts-are-silent")}` : "",
    silences.some((dropout) => dropout.silent) ? `${SILENT} ${say("chart.nothing-sounds")}` : "",
    score.open.length > 0 ? `${OPEN} ${say("chart.yours")}` : "",
  ];
  return `  ${marks.filter((mark) => mark !== "").join("   ")}\n`;
}

export interface TextStripOptions {
  /** Lines for each dropout, by index, printed from the line on which the dropout ends. They must not have control characters: terminals obey them. */
  readonly results?: ReadonlyMap<number, readonly string[]>;
  /** The language of the strip; English when left out. */
  readonly words?: ChartWords;
}

/**
 * The score of a rung as text, for a terminal: one line for each phrase of the pattern (more for long phrases), four cells to a bar, and below it the
 * open bars. Every line ends in a line end. A score without bars is drawn as one bar.
 *
 * @example textStrip(score).startsWith("  phrase 1") // true
 */
export function textStrip(score: Score, { results = new Map(), words = ENGLISH }: TextStripOptions = {}): string {
  const lines: string[] = [];
  const heard = hearing(score);
  const phrases = phrasesOf(score).map(({ number, isOutro, bars }) => {
    return { bars, name: isOutro ? words.say("chart.outro") : words.say("chart.phrase", { number }) };
  });
  const names = phrases.reduce((widest, { name }) => Math.max(widest, columnsOf(name)), NAME);
  for (const { bars, name } of phrases) {
    for (const [i, drawn] of linesOf(bars).entries()) {
      const label = padColumns(i > 0 ? "" : name, names);
      const cells = drawn.map((bar) => cellsOf(bar, heard)).join("│");
      const strip = [`  ${label} │${cells}│`];
      strip.push(...openLine(score, drawn).map((open) => `  ${" ".repeat(names)} ${open}`));
      lines.push(
        ...besideEachOther(strip, [...tempoAt(score, drawn[0]!, words), ...resultsWithin(score, results, drawn)]),
      );
    }
  }
  return lines.map((line) => `${line}\n`).join("");
}

/**
 * The first phrase for lists of rungs, and where silences grow inside the take each phrase in which they are longer, or more parts silent,
 * than before: a line with what sounds, and below it one with the open bars when there are any. A phrase that is longer than a line has several.
 */
export function phraseStrips(score: Score): readonly (readonly string[])[] {
  const phrases = phrasesOf(score).filter(({ isOutro }) => !isOutro);
  const heard = hearing(score);
  let [longest, most] = [Number.NEGATIVE_INFINITY, 0];
  return phrases.flatMap(({ bars }) => {
    const ending = endingIn(score, { from: bars[0]!.from, to: bars.at(-1)!.to });
    const silent = Math.max(0, ...ending.map((each) => beatsOver(score, each.from, each.to)));
    const parts = Math.max(0, ...ending.map((each) => each.parts.length));
    if (silent <= longest + SAME_BEATS && parts <= most) return [];
    [longest, most] = [Math.max(longest, silent), Math.max(most, parts)];
    return [
      linesOf(bars).flatMap((line) => [
        `│${line.map((bar) => cellsOf(bar, heard)).join("│")}│`,
        ...openLine(score, line),
      ]),
    ];
  });
}

/** The bars of a phrase as they stand on lines. */
function linesOf(bars: readonly Span[]): readonly (readonly Span[])[] {
  const count = Math.ceil(bars.length / BARS_PER_LINE);
  return Array.from({ length: count }, (_, i) => bars.slice(i * BARS_PER_LINE, (i + 1) * BARS_PER_LINE));
}

/** The tempo that begins with a bar, in a take whose tempo rises. */
function tempoAt({ tempi = [] }: Score, { from }: Span, { say }: ChartWords): readonly string[] {
  return tempi
    .filter(({ at }) => Math.abs(at - from) < SAME_SECONDS)
    .map(({ tempo }) => say("chart.tempo", { tempo: String(tempo) }));
}

/** The open bars among these, on a line of their own, so that a silence under them is seen; none when no bar is open. */
function openLine({ open }: Score, bars: readonly Span[]): readonly string[] {
  if (!bars.some((bar) => open.some((each) => overlap(each, bar)))) return [];
  const cells = bars.map((bar) => cellsOf(bar, (at) => (open.some((each) => isIn(at, each)) ? OPEN : " ")));
  return [` ${cells.join(" ")} `];
}

/** The silences that end in a stretch. */
function endingIn({ dropouts }: Score, { from, to }: Span): Score["dropouts"] {
  return dropouts.filter((each) => each.to > from + SAME_SECONDS && each.to <= to + SAME_SECONDS);
}

function cellsOf({ from, to }: Span, mark: (at: number) => string): string {
  return Array.from({ length: CELLS }, (_, i) => mark(from + ((i + 0.5) / CELLS) * (to - from))).join("");
}

/** The mark of a time of the score. */
function hearing(score: Score): (at: number) => string {
  const [silences, rests] = [silencesHeard(score), restsOf(score)];
  return (at) => {
    const dropout = silences.find((each) => isIn(at, each));
    if (dropout !== undefined) return dropout.silent ? SILENT : THINNER;
    return rests.some((each) => isIn(at, each)) ? RESTS : SOUNDS;
  };
}

/**
 * Stretches of a bar and more in which no part of the mix has a note, though none was told to be silent: a click on the first beat of every other bar leaves
 * one. A note counts for a beat at least, as drums do not say how long they ring. None where a recording plays, of which nothing is known.
 */
function restsOf({ parts, bars, beat, duration, dropouts }: Score): readonly Span[] {
  const playing = parts.filter(({ does }) => does !== "off");
  const bar = (bars[1]?.at ?? duration) - (bars[0]?.at ?? 0);
  if (bar <= 0 || playing.length === 0 || playing.some(({ recorded }) => recorded !== undefined)) return [];
  const busy = [
    ...playing.flatMap(({ notes }) => notes.map(({ at, seconds }) => ({ from: at, to: at + Math.max(seconds, beat) }))),
    ...silencesHeard({ dropouts }),
    { from: duration, to: duration },
  ].sort((a, b) => a.from - b.from);
  let end = 0;
  return busy.flatMap(({ from, to }) => {
    const rest = { from: end, to: from };
    end = Math.max(end, to);
    return rest.to - rest.from >= bar - SAME_SECONDS ? [rest] : [];
  });
}

function besideEachOther(strip: readonly string[], results: readonly string[]): readonly string[] {
  const width = columnsOf(strip[0]!);
  return Array.from({ length: Math.max(strip.length, results.length) }, (_, i) =>
    `${padColumns(strip[i] ?? "", width)}  ${results[i] ?? ""}`.trimEnd(),
  );
}

/** The lines on the dropouts that end on this line of the strip. */
function resultsWithin(
  score: Score,
  results: ReadonlyMap<number, readonly string[]>,
  drawn: readonly Span[],
): readonly string[] {
  const from = drawn[0]!.from;
  const to = drawn.at(-1)!.to;
  return score.dropouts.flatMap((dropout, i) =>
    from < dropout.to - 1e-6 && dropout.to <= to + 1e-6 ? (results.get(i) ?? []) : [],
  );
}
