import { type Drill, rungs } from "../../../drill/index.js";
import { type Block, blockOf } from "../block.js";
import type { Mark } from "../drawing.js";
import { beatSign, valuesText } from "../drillText.js";
import { INK, LEADING, MUTED, SIZES } from "../pageStyle.js";
import { LADDER_NAMES, printing, type RungSetting, rungsAlways, rungsTitle } from "./rungText.js";

/** The rungs as a list for ladders too long for a table: one line for each ladder, in order of climbing. */
export function rungList(drill: Drill, setting: RungSetting): Block {
  const { type, width } = setting;
  const print = printing(drill, setting);
  const marks: Mark[] = [];
  let y = rungsTitle(marks, { type, count: rungs(drill).count });
  const margin =
    Math.max(0, ...drill.ladders.map(({ parameter }) => type.width(LADDER_NAMES[parameter], "italic", SIZES.label))) +
    12;
  for (const ladder of drill.ladders) {
    const name = LADDER_NAMES[ladder.parameter];
    const sign = ladder.parameter === "tempo" ? `${beatSign(drill.beat)} = ` : "";
    const values = sign + valuesText(ladder, (value) => (sign ? value : print(ladder, value)));
    y += 2;
    for (const [i, line] of type
      .lines(values, { face: "regular", size: SIZES.text, width: width - margin })
      .entries()) {
      y += SIZES.text * LEADING;
      if (i === 0) marks.push(...type.line(name, { x: 0, y, face: "italic", size: SIZES.label, ink: MUTED }));
      marks.push(...type.line(line, { x: margin, y, face: "regular", size: SIZES.text, ink: INK }));
    }
  }
  if (drill.ladders.length > 1) {
    y += SIZES.text * LEADING;
    marks.push(
      ...type.line("The first climbs first; when it is at its top, the next climbs by one value.", {
        x: 0,
        y: y + 2,
        face: "italic",
        size: SIZES.small,
        ink: MUTED,
      }),
    );
    y += 2;
  }
  y = rungsAlways(marks, { type, drill, y });
  return blockOf(marks, { height: y + 4, gap: 22 });
}
