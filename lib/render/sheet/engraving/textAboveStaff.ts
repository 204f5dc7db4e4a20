import type { TextMark } from "../drawing.js";
import { withSigns } from "../drillText.js";
import { INK, SIZES } from "../pageStyle.js";
import type { Typeface } from "../typeface.js";
import type { System, SystemText } from "./readEngraving.js";

const CHORD = { size: 12.5, face: "regular" } as const;
const NAME = { size: SIZES.label, face: "regular" } as const;
const WORDS = { size: SIZES.label, face: "italic" } as const;
/** White space between a symbol and the text above it, in points. */
const CLEAR = 5;
/** White space between a chord symbol and a symbol beside it, in points. */
const ASIDE = 3;

/** What is set over a system besides what its engraver placed. */
export interface OverSystem {
  readonly type: Typeface;
  /** How often the riff is played, over its last bar line; empty for nothing. */
  readonly times?: string;
  /** Width of the page between its margins, in points: no text goes beyond it. */
  readonly width?: number;
}

/**
 * Sets chord symbols and words above the staff in the font of the page. No text covers another one. The chords are on one line, above the
 * notes, beams and words.
 */
export function textsOver(
  system: System,
  said: (text: SystemText) => string,
  { type, times = "", width = Number.POSITIVE_INFINITY }: OverSystem,
): readonly TextMark[] {
  const set = (kind: SystemText["kind"], style: typeof CHORD | typeof WORDS | typeof NAME): readonly SetText[] =>
    system.texts
      .filter((each) => each.kind === kind)
      .map((each) => {
        const text = withSigns(said(each));
        const wide = type.width(text, style.face, style.size);
        return { x: Math.max(0, Math.min(each.x, width - wide)), y: each.y, text, ...style, width: wide };
      });
  const chords = set("chord", CHORD);
  const names = set("name", NAME).map((each) => ({ ...each, x: 0 }));
  const words: SetText[] = [];
  for (const each of set("words", WORDS)) words.push({ ...each, y: aboveOthers(each, words) });
  if (times !== "") {
    const wide = type.width(times, WORDS.face, WORDS.size);
    const x = Math.min(system.bars.at(-1)!.right, width) - wide;
    const over = system.covered.filter(({ left, right }) => left < x + wide && right > x).map(({ top }) => top);
    const text = { x, y: Math.min(0, ...over) - CLEAR, text: times, ...WORDS, width: wide };
    words.push({ ...text, y: aboveOthers(text, words) });
  }
  const tops = [
    ...system.covered,
    ...words.map(({ x, y, width: wide, size }) => ({ left: x, right: x + wide, top: y - size * 0.75 })),
  ];
  const line = Math.min(
    ...chords.map(({ y }) => y),
    ...chords.flatMap(({ x, width: wide }) =>
      tops.filter(({ left, right }) => left < x + wide + ASIDE && right > x - ASIDE).map(({ top }) => top - CLEAR),
    ),
  );
  return [...names, ...words, ...chords.map((each) => ({ ...each, y: line }))].flatMap((each) =>
    type.line(each.text, { ...each, ink: INK }),
  );
}

/** The baseline of a text, moved up until it stands clear of the others. */
function aboveOthers(text: SetText, others: readonly SetText[]): number {
  let y = text.y;
  const covers = (other: SetText): boolean =>
    other.x < text.x + text.width + ASIDE &&
    other.x + other.width > text.x - ASIDE &&
    other.y - other.size < y &&
    other.y > y - text.size;
  for (let found = others.find(covers); found !== undefined; found = others.find(covers)) y = found.y - found.size - 1;
  return y;
}

interface SetText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly face: "regular" | "italic";
  readonly size: number;
  readonly width: number;
}
