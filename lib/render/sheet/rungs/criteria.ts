import type { Drill } from "../../../drill/index.js";
import { capital } from "../../phrases.js";
import { type Block, blockOf } from "../block.js";
import type { Mark } from "../drawing.js";
import { gateLine, goBackLine, mixesText, takeText, toleranceLines, UNCLEAR_LINE } from "../drillText.js";
import { INK, LEADING, SIZES } from "../pageStyle.js";
import type { Typeface } from "../typeface.js";

/** Indentation of a list, in points. */
const BULLET = 9;

/** The criteria of a drill: when a take is clean, when the student goes on, and what a take consists of. */
export function criteriaBlock(drill: Drill, { type, width }: { type: Typeface; width: number }): Block {
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
  section("A take is clean when", toleranceLines(drill), BULLET);
  const goBack = goBackLine(drill);
  section("You go on when", [gateLine(drill.gate)], BULLET);
  y += 3;
  for (const line of [goBack, UNCLEAR_LINE].filter((each) => each !== "")) say(line, { face: "regular" });
  section("One take", [`${capital(takeText(drill))}. ${mixesText(drill)}.`]);
  return blockOf(marks, { height: y + 4, gap: 22 });
}
