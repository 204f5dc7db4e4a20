import type { TextMark } from "../drawing.js";
import { withSigns } from "../drillText.js";
import { INK, SIZES } from "../pageStyle.js";
import type { Typeface } from "../typeface.js";
import type { System, SystemText } from "./readEngraving.js";

const CHORD = { size: 12.5, face: "regular" } as const;
const WORDS = { size: SIZES.label, face: "italic" } as const;
/** White space between a symbol and the text above it, in points. */
const CLEAR = 5;
/** White space between a chord symbol and a symbol beside it, in points. */
const ASIDE = 3;

/** Sets chord symbols and words above the staff in the font of the page. The chords are on one line, above the notes, beams and words. */
export function textsOver(system: System, said: (text: SystemText) => string, type: Typeface): readonly TextMark[] {
  const set = (kind: SystemText["kind"], style: typeof CHORD | typeof WORDS): readonly SetText[] =>
    system.texts
      .filter((each) => each.kind === kind)
      .map((each) => {
        const text = withSigns(said(each));
        return { x: each.x, y: each.y, text, ...style, width: type.width(text, style.face, style.size) };
      });
  const words = set("words", WORDS);
  const chords = set("chord", CHORD);
  const tops = [
    ...system.covered,
    ...words.map(({ x, y, width, size }) => ({ left: x, right: x + width, top: y - size * 0.75 })),
  ];
  const line = Math.min(
    ...chords.map(({ y }) => y),
    ...chords.flatMap(({ x, width }) =>
      tops.filter(({ left, right }) => left < x + width + ASIDE && right > x - ASIDE).map(({ top }) => top - CLEAR),
    ),
  );
  return [...words, ...chords.map((each) => ({ ...each, y: line }))].flatMap((each) =>
    type.line(each.text, { ...each, ink: INK }),
  );
}

interface SetText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly face: "regular" | "italic";
  readonly size: number;
  readonly width: number;
}
