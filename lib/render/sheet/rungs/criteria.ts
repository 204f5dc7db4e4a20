import type { Drill } from "../../../drill/index.js";
import { type Block, blockOf } from "../block.js";
import type { Mark } from "../drawing.js";
import { gateLine, goBackLine, mixesText, takeText, toleranceLines } from "../drillText.js";
import { INK, LEADING, SIZES } from "../pageStyle.js";
import type { Typeface } from "../typeface.js";
import type { SheetWords } from "../words.js";

/** Indentation of a list, in points. */
const BULLET = 9;

/** The criteria of a drill: when a take is clean, when the student goes on, and what a take consists of. */
export function criteriaBlock(
  drill: Drill,
  { type, width, words }: { type: Typeface; width: number; words: SheetWords },
): Block {
  const { section, line, ended } = column({ type, width });
  section(words.say("sheet.clean-when"), toleranceLines(drill, words), BULLET);
  const goBack = goBackLine(drill, words);
  section(words.say("sheet.go-on-when"), [gateLine(drill.gate, words)], BULLET);
  for (const said of [goBack, words.say("sheet.unclear")].filter((each) => each !== "")) line(said);
  section(words.say("sheet.one-take"), [`${takeText(drill, words)} ${mixesText(drill, words)}`]);
  return ended();
}

/** What a take consists of, for those who accompany. */
export function takeBlock(
  drill: Drill,
  { type, width, words }: { type: Typeface; width: number; words: SheetWords },
): Block {
  const { section, ended } = column({ type, width });
  section(words.say("sheet.one-take"), [takeText(drill, words)]);
  return ended();
}

/** A column of headed texts. */
function column({ type, width }: { type: Typeface; width: number }): {
  /** A heading with its lines; nothing without lines. */
  readonly section: (heading: string, lines: readonly string[], indent?: number) => void;
  readonly line: (text: string) => void;
  readonly ended: () => Block;
} {
  const marks: Mark[] = [];
  let y = 0;
  const say = (
    text: string,
    { face, indent = 0, ink = INK }: { face: "bold" | "regular" | "italic"; indent?: number; ink?: string },
  ): void => {
    const size = face === "bold" ? SIZES.text : SIZES.text - 0.5;
    for (const [i, line] of type.lines(text, { face, size, width: width - indent }).entries()) {
      y += size * (face === "bold" && i === 0 ? 1 : LEADING);
      if (indent > 0 && i === 0) marks.push(...type.line("–", { x: 0, y, face: "regular", size, ink }));
      marks.push(...type.line(line, { x: indent, y, face, size, ink }));
    }
  };
  const section = (heading: string, lines: readonly string[], indent = 0): void => {
    if (lines.length === 0) return;
    if (y > 0) y += 9;
    say(heading, { face: "bold" });
    y += 1.5;
    for (const line of lines) say(line, { face: "regular", indent });
  };
  return {
    section,
    line: (text) => say(text, { face: "regular" }),
    ended: () => blockOf(marks, { height: y + 4, gap: 22 }),
  };
}
