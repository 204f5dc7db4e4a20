import { cautionsIn } from "../../words/index.js";
import { type Mark, movedBy, rule } from "./drawing.js";
import { FAINT, LEADING, type MARGIN, MUTED, SIZES } from "./pageStyle.js";
import type { SheetImprint } from "./sheetOptions.js";
import type { Typeface } from "./typeface.js";
import type { SheetWords } from "./words.js";

/** The footer of every page: whose it is, what may be done with it and where it is found, then the cautions. `at` places its lower left corner. Lengths in points. */
export function footer({
  type,
  width,
  words,
  imprint = {},
  address,
}: {
  type: Typeface;
  width: number;
  words: SheetWords;
  imprint?: SheetImprint | undefined;
  address?: string | undefined;
}): {
  readonly height: number;
  at(x: number, bottom: number): readonly Mark[];
} {
  const legal = [imprint.copyright, imprint.licence, address].filter((each) => each !== undefined).join("   ·   ");
  const lines = [legal, cautionsIn(words).join(" ")].flatMap((text) =>
    type.lines(text, { face: "regular", size: SIZES.small, width }),
  );
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
  words,
  title,
  page,
  of,
  margin,
}: {
  type: Typeface;
  width: number;
  words: SheetWords;
  title: string;
  page: number;
  of: number;
  margin: typeof MARGIN;
}): readonly Mark[] {
  const number = words.say("sheet.page", { page, of });
  const end = width - type.width(number, "regular", SIZES.small);
  const [first = "", ...rest] = type.lines(title, { face: "regular", size: SIZES.small, width: end - 24 });
  const shown = rest.length > 0 ? `${first} …` : first;
  const y = margin.top - 14;
  return movedBy(
    [
      ...type.line(shown, { x: 0, y, face: "regular", size: SIZES.small, ink: MUTED }),
      ...type.line(number, { x: end, y, face: "regular", size: SIZES.small, ink: MUTED }),
    ],
    margin.side,
    0,
  );
}
