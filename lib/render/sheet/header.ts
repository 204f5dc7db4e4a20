import type { Drill } from "../../drill/index.js";
import { staffTranspositionOf } from "../musicxml/index.js";
import { capital } from "../phrases.js";
import { type Block, blockOf } from "./block.js";
import { type Mark, rule } from "./drawing.js";
import { keyName, swingText, tempoText } from "./drillText.js";
import { FAINT, INK, LEADING, MUTED, SIZES } from "./pageStyle.js";
import { formPage, type Player } from "./riff/formPage.js";
import { formsOf } from "./riff/riffForms.js";
import type { Typeface } from "./typeface.js";

/** The texts in the header of a sheet. */
export interface HeaderWords {
  readonly instrument: string;
  readonly course: string;
  readonly title: string;
  readonly subtitle: string;
  readonly about: string;
}

/** Longest line of text, in points: our choice; longer lines are tiring to read. */
const LONGEST_LINE = 430;

/** The header of the first page: instrument, course, title, key, tempo and description. */
export function headerBlock(
  { instrument, course, title, subtitle, about }: HeaderWords,
  { type, width }: { type: Typeface; width: number },
): Block {
  const marks: Mark[] = [];
  let y = SIZES.name;
  marks.push(...type.line(instrument, { x: 0, y, face: "bold", size: SIZES.name, ink: INK }));
  const room = width - type.width(instrument, "bold", SIZES.name) - 24;
  const [shown] = type.lines(course, { face: "regular", size: SIZES.label, width: Math.max(60, room) });
  if (shown) {
    const end = width - type.width(shown, "regular", SIZES.label);
    marks.push(...type.line(shown, { x: end, y, face: "regular", size: SIZES.label, ink: MUTED }));
  }
  y += 9;
  marks.push(rule(0, y, { dx: width, stroke: FAINT, line: 0.6 }));
  y += 8;
  const text = (
    words: string,
    style: { face: "regular" | "italic"; size: number; ink: string; most: number; leading?: number },
  ): void => {
    for (const line of type.lines(words, { face: style.face, size: style.size, width: style.most })) {
      y += style.size * (style.leading ?? LEADING);
      marks.push(...type.line(line, { x: 0, y, face: style.face, size: style.size, ink: style.ink }));
    }
  };
  const isLong = type.lines(title, { face: "regular", size: SIZES.title, width }).length > 1;
  text(title, { face: "regular", size: isLong ? SIZES.longTitle : SIZES.title, ink: INK, most: width, leading: 1.16 });
  y += 7;
  text(subtitle, { face: "regular", size: SIZES.subtitle, ink: INK, most: width });
  if (about !== "") {
    y += 5;
    text(about, { face: "italic", size: SIZES.text, ink: MUTED, most: Math.min(width, LONGEST_LINE) });
  }
  return blockOf(marks, { height: y + 4, keepsNext: true });
}

/** The texts in the header of a drill's sheet for a player. */
export function headWords(drill: Drill, player: Player | undefined, course: string): HeaderWords {
  const form = formsOf(drill)[0]!;
  const page = formPage(drill, form, player);
  const written = keyName(staffTranspositionOf(page.staves[0]!, page.key).key);
  const concert = keyName(page.key);
  const { swing, tuning } = drill.pattern;
  const isPercussion = page.staves[0]!.kind === "percussion";
  const facts = [
    drill.pattern.title ?? drill.pattern.name,
    isPercussion ? "" : written === concert ? written : `${written} (sounds ${concert})`,
    tempoText(drill),
    swing === undefined ? "" : swingText(swing),
    tuning === undefined || isPercussion ? "" : `A = ${tuning} Hz`,
  ];
  return {
    instrument:
      player === undefined || isPercussion
        ? capital(drill.student) + (isPercussion ? "" : ", at concert pitch")
        : capital(player.instrument.name),
    course,
    title: drill.title ?? drill.name,
    subtitle: facts.filter((fact) => fact !== "").join("   ·   "),
    about: drill.about ?? "",
  };
}
