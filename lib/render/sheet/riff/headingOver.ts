import type { Drill } from "../../../drill/index.js";
import type { Swing } from "../../../time/index.js";
import { letterRanges } from "../../phraseLetters.js";
import { frame, type Mark, rule } from "../drawing.js";
import { swingText } from "../drillText.js";
import { INK, SIZES } from "../pageStyle.js";
import type { Typeface } from "../typeface.js";
import type { SheetWords } from "../words.js";

/** White space between what stands in the line, in points. */
const GAP = 12;
const SIZE = SIZES.text;
/** White space between a letter and its box, in points. */
const PAD = 3;

/**
 * The line over the first system of a form: the letters of the phrases that play it in a box, its name, and the swing. Nothing, of height 0, where
 * there is none of these.
 */
export function headingOver(
  drill: Drill,
  { heading, type, words }: { readonly heading: string; readonly type: Typeface; readonly words: SheetWords },
): { readonly marks: readonly Mark[]; readonly height: number } {
  const marks: Mark[] = [];
  let x = 0;
  const y = SIZE + PAD + 2;
  if (drill.phrases > 1) {
    const letters = letterRanges(Array.from({ length: drill.phrases }, (_, i) => i + 1));
    const width = type.width(letters, "bold", SIZE) + 2 * PAD;
    marks.push(frame(x, y - SIZE, { width, height: SIZE + PAD, stroke: INK, line: 0.7 }));
    marks.push(...type.line(letters, { x: x + PAD, y, face: "bold", size: SIZE, ink: INK }));
    x += width + GAP;
  }
  if (heading !== "") {
    marks.push(...type.line(heading, { x, y, face: "bold", size: SIZE, ink: INK }));
    x += type.width(heading, "bold", SIZE) + GAP;
  }
  const { swing } = drill.pattern;
  if (swing !== undefined && swing.first !== swing.second) marks.push(...swingMarks(swing, { x, y, type, words }));
  return { marks, height: marks.length === 0 ? 0 : y + 10 };
}

/** Swing as engravers write it: two eighths are a triplet of a quarter and an eighth. Another ratio or note value is said in words. */
function swingMarks(
  swing: Swing,
  {
    x,
    y,
    type,
    words,
  }: { readonly x: number; readonly y: number; readonly type: Typeface; readonly words: SheetWords },
): readonly Mark[] {
  const style = { face: "regular", size: SIZE, ink: INK } as const;
  const isTriplet = swing.first === 2 * swing.second && swing.subdivision.n === 1 && swing.subdivision.d === 8;
  if (!isTriplet) return type.line(swingText(swing, words), { x, y, ...style });
  const before = `${words.say("sheet.swing-word")}  ♫ = `;
  const from = x + type.width(before, style.face, style.size);
  const to = from + type.width(TRIPLET, style.face, style.size);
  const over = y - SIZE * 1.2;
  const middle = (from + to) / 2;
  const three = type.width("3", "italic", THREE);
  const bracket = (dx: number, at: number): Mark => rule(at, over, { dx, stroke: INK, line: 0.6 });
  const hook = (at: number): Mark => rule(at, over, { dy: 2.5, stroke: INK, line: 0.6 });
  return [
    ...type.line(`${before}${TRIPLET}`, { x, y, ...style }),
    hook(from),
    bracket(middle - three / 2 - 1.5 - from, from),
    ...type.line("3", { x: middle - three / 2, y: over + THREE * 0.33, face: "italic", size: THREE, ink: INK }),
    bracket(to - (middle + three / 2 + 1.5), middle + three / 2 + 1.5),
    hook(to),
  ];
}

/** A quarter and an eighth, with hard blanks between. */
const TRIPLET = "♩\u00a0\u00a0♪";
/** Size of the number over the triplet, in points. */
const THREE = 7;
