import type { Score } from "../../../schema/index.js";
import { isIn, overlap, phrasesOf, type Span } from "../phrases.js";

/** Cells to a bar; our choice: silences of half and quarter bars are visible. */
const CELLS = 4;
/** Most bars on a line; longer phrases continue on the next line. */
const BARS_PER_LINE = 4;

const SOUNDS = "━";
const THINNER = "─";
const SILENT = "·";
const OPEN = "~";

/**
 * The key of `textStrip` for the marks that occur in the score: one line with its line end.
 *
 * @example
 * textStripKey(score).includes("everything sounds") // true
 */
export function textStripKey(score: Score): string {
  const marks = [
    `${SOUNDS} everything sounds`,
    score.dropouts.some((dropout) => !dropout.silent) ? `${THINNER} some parts are silent` : "",
    score.dropouts.some((dropout) => dropout.silent) ? `${SILENT} nothing sounds` : "",
    score.open.length > 0 ? `${OPEN} yours to improvise` : "",
  ];
  return `  ${marks.filter((mark) => mark !== "").join("   ")}\n`;
}

export interface TextStripOptions {
  /** Lines for each dropout, by index, printed from the line on which the dropout ends. They must not have control characters: terminals obey them. */
  readonly results?: ReadonlyMap<number, readonly string[]>;
}

/**
 * The score of a rung as text, for a terminal: one line for each phrase of the pattern (more for long phrases), four cells to a bar, and below it the
 * open bars. Every line ends in a line end. A score without bars is drawn as one bar.
 *
 * @example textStrip(score).startsWith("  phrase 1") // true
 */
export function textStrip(score: Score, { results = new Map() }: TextStripOptions = {}): string {
  const lines: string[] = [];
  for (const { number, isOutro, bars } of phrasesOf(score)) {
    for (let i = 0; i < bars.length; i += BARS_PER_LINE) {
      const drawn = bars.slice(i, i + BARS_PER_LINE);
      const label = i > 0 ? "" : isOutro ? "outro" : `phrase ${number}`;
      const cells = drawn.map((bar) => cellsOf(bar, (at) => heard(score, at))).join("│");
      const strip = [`  ${label.padEnd(9)} │${cells}│`];
      if (drawn.some((bar) => score.open.some((open) => overlap(open, bar)))) {
        const open = drawn.map((bar) => cellsOf(bar, (at) => (score.open.some((each) => isIn(at, each)) ? OPEN : " ")));
        strip.push(`  ${" ".repeat(9)}  ${open.join(" ")} `);
      }
      lines.push(...besideEachOther(strip, resultsWithin(score, results, drawn)));
    }
  }
  return lines.map((line) => `${line}\n`).join("");
}

/** The first phrase on one line with its open bars, for lists of rungs; empty when it is longer than a line. */
export function phraseStrip(score: Score): string {
  const [first] = phrasesOf(score);
  if (first === undefined || first.bars.length > BARS_PER_LINE) return "";
  const mark = (at: number): string => (score.open.some((open) => isIn(at, open)) ? OPEN : heard(score, at));
  return `│${first.bars.map((bar) => cellsOf(bar, mark)).join("│")}│`;
}

function cellsOf({ from, to }: Span, mark: (at: number) => string): string {
  return Array.from({ length: CELLS }, (_, i) => mark(from + ((i + 0.5) / CELLS) * (to - from))).join("");
}

function heard(score: Score, at: number): string {
  const dropout = score.dropouts.find((each) => isIn(at, each));
  return dropout === undefined ? SOUNDS : dropout.silent ? SILENT : THINNER;
}

function besideEachOther(strip: readonly string[], results: readonly string[]): readonly string[] {
  const width = strip[0]!.length;
  return Array.from({ length: Math.max(strip.length, results.length) }, (_, i) =>
    `${(strip[i] ?? "").padEnd(width)}  ${results[i] ?? ""}`.trimEnd(),
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
