import { CAUTION } from "../../base/index.js";
import { type Mark, movedBy, rule } from "./drawing.js";
import { FAINT, LEADING, MARGIN, MUTED, SIZES } from "./pageStyle.js";
import type { Typeface } from "./typeface.js";

/** The footer of every page: the cautions. `at` places its lower left corner. Lengths in points. */
export function footer({ type, width }: { type: Typeface; width: number }): {
  readonly height: number;
  at(x: number, bottom: number): readonly Mark[];
} {
  const lines = type.lines(CAUTION, { face: "regular", size: SIZES.small, width });
  const height = 8 + lines.length * SIZES.small * LEADING;
  const marks: Mark[] = [rule(0, 0, { dx: width, stroke: FAINT, line: 0.6 })];
  lines.forEach((line, i) => {
    marks.push(
      ...type.line(line, {
        x: 0,
        y: 4 + (i + 1) * SIZES.small * LEADING,
        face: "regular",
        size: SIZES.small,
        ink: MUTED,
      }),
    );
  });
  return { height: height + 10, at: (x, bottom) => movedBy(marks, x, bottom - height) };
}

/** The running head of the second and later pages: title and page number. */
export function runningHead({
  type,
  width,
  title,
  page,
  of,
}: {
  type: Typeface;
  width: number;
  title: string;
  page: number;
  of: number;
}): readonly Mark[] {
  const number = `${page} of ${of}`;
  const end = width - type.width(number, "regular", SIZES.small);
  const [first = "", ...rest] = type.lines(title, { face: "regular", size: SIZES.small, width: end - 24 });
  const shown = rest.length > 0 ? `${first} …` : first;
  const y = MARGIN.top - 14;
  return movedBy(
    [
      ...type.line(shown, { x: 0, y, face: "regular", size: SIZES.small, ink: MUTED }),
      ...type.line(number, { x: end, y, face: "regular", size: SIZES.small, ink: MUTED }),
    ],
    MARGIN.side,
    0,
  );
}
