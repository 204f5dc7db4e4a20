import { type Drill, type Ladder, partsTextsIn, rungs } from "../../../drill/index.js";
import { readKeyPlace } from "../../../pattern/index.js";
import { staffTranspositionOf } from "../../musicxml/index.js";
import { grouped } from "../../phrases.js";
import type { Mark } from "../drawing.js";
import { beatSign, keyName, partsText, riseSaid, silencesText } from "../drillText.js";
import { INK, LEADING, SIZES } from "../pageStyle.js";
import { formPage } from "../riff/formPage.js";
import type { Form } from "../riff/riffForms.js";
import type { Player } from "../sheetReader.js";
import type { Typeface } from "../typeface.js";
import type { SheetWords } from "../words.js";

/** The printed name of a ladder. */
export function ladderName(parameter: Ladder["parameter"], words: SheetWords): string {
  return words.say("setting.name", { parameter });
}

export interface RungSetting {
  readonly player: Player | undefined;
  readonly type: Typeface;
  readonly width: number;
  readonly words: SheetWords;
  /** The first form of the riff. */
  readonly form: Form;
}

/** Prints a value of a ladder; keys as the player reads them. */
export type Print = (ladder: Ladder, value: string) => string;

export function printing(drill: Drill, { player, form, words }: RungSetting): Print {
  return ({ parameter }, value) => {
    switch (parameter) {
      case "dropout":
        return silencesText(value, words);
      case "tempo":
        return `${beatSign(drill.beat, words)} = ${value}`;
      case "key": {
        const place = readKeyPlace(value);
        if (place === undefined) return value;
        const key = keyName(staffTranspositionOf(formPage(drill, form, player).staves[0]!, place.key).key, words);
        return place.octaves === 0
          ? key
          : words.say("value.key-octave", { key, way: place.octaves > 0 ? "higher" : "lower" });
      }
      case "parts":
        return partsText(value, words);
      case "rise":
        return riseSaid(value, words);
      case "open":
        return value === "none" ? words.say("value.no-open-bars") : value.replaceAll("+", ", ");
      default:
        return value;
    }
  };
}

/** Adds the heading of the rungs to the marks and returns the y coordinate of its end. */
export function rungsTitle(
  marks: Mark[],
  { type, count, words }: { type: Typeface; count: number; words: SheetWords },
): number {
  marks.push(
    ...type.line(words.say("sheet.rungs", { count, shown: grouped(count) }), {
      x: 0,
      y: SIZES.text,
      face: "bold",
      size: SIZES.text,
      ink: INK,
    }),
  );
  return SIZES.text + 3;
}

/** Adds the settings common to all rungs below `y` and returns the y coordinate of their end. */
export function rungsAlways(
  marks: Mark[],
  { type, drill, y, words }: { type: Typeface; drill: Drill; y: number; words: SheetWords },
): number {
  const text = alwaysText(drill, words);
  if (text === "") return y;
  const at = y + SIZES.label * LEADING + 6;
  marks.push(...type.line(text, { x: 0, y: at, face: "regular", size: SIZES.label, ink: INK }));
  return at;
}

/** The settings common to all rungs; empty when there are none. */
function alwaysText(drill: Drill, words: SheetWords): string {
  const { dropout, parts, rise, tempo, variant } = drill.fixed;
  const hasVariants =
    (drill.pattern.parts.find(({ name }) => name === drill.student)?.variants[""] ?? undefined) === undefined;
  const setting = (parameter: "dropout" | "parts" | "variant", value: string): string =>
    words.say("setting.one", { parameter, name: parameter, value });
  const said = [
    dropout === undefined ? "" : setting("dropout", silencesText(dropout, words)),
    parts === undefined || partsTextsIn(parts).length === 1 ? "" : setting("parts", partsText(parts, words)),
    variant === undefined || !hasVariants ? "" : setting("variant", variant),
    tempo === undefined ? "" : `${beatSign(drill.beat, words)} = ${tempo}`,
    rise === undefined || rise === "none"
      ? ""
      : words.say("setting.one", { parameter: "rise", name: "rise", value: riseSaid(rise, words) }),
  ].filter((each) => each !== "");
  const settings = said.join("  ·  ");
  return settings === "" || rungs(drill).count === 1 ? settings : words.say("sheet.always", { settings });
}
