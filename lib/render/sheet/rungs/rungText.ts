import { type Drill, type Ladder, rungs } from "../../../drill/index.js";
import { parseKey } from "../../../pattern/index.js";
import { staffTranspositionOf } from "../../musicxml/index.js";
import { grouped, listed } from "../../phrases.js";
import type { Mark } from "../drawing.js";
import { beatSign, keyName, lengthText } from "../drillText.js";
import { INK, LEADING, SIZES } from "../pageStyle.js";
import { formPage, type Player } from "../riff/formPage.js";
import type { Form } from "../riff/riffForms.js";
import type { Typeface } from "../typeface.js";

/** The printed name of a ladder. */
export const LADDER_NAMES: Readonly<Record<Ladder["parameter"], string>> = {
  dropout: "silence",
  tempo: "tempo",
  variant: "riff",
  key: "key",
  mix: "mix",
  parts: "silent",
  open: "open bars",
};

export interface RungSetting {
  readonly player: Player | undefined;
  readonly type: Typeface;
  readonly width: number;
  /** The first form of the riff. */
  readonly form: Form;
}

/** Prints a value of a ladder; keys as the player reads them. */
export type Print = (ladder: Ladder, value: string) => string;

export function printing(drill: Drill, { player, form }: RungSetting): Print {
  return ({ parameter }, value) => {
    switch (parameter) {
      case "dropout":
        return lengthText(value);
      case "tempo":
        return `${beatSign(drill.beat)} = ${value}`;
      case "key": {
        const key = parseKey(value);
        if (!key.ok) return value;
        return keyName(staffTranspositionOf(formPage(drill, form, player).staves[0]!, key.value).key);
      }
      case "parts":
        return listed(value.split("+"));
      case "open":
        return value === "none" ? "none" : value.replaceAll("+", ", ");
      default:
        return value;
    }
  };
}

/** Adds the heading of the rungs to the marks and returns the y coordinate of its end. */
export function rungsTitle(marks: Mark[], { type, count }: { type: Typeface; count: number }): number {
  marks.push(
    ...type.line(count === 1 ? "One rung" : `${grouped(count)} rungs`, {
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
export function rungsAlways(marks: Mark[], { type, drill, y }: { type: Typeface; drill: Drill; y: number }): number {
  const text = alwaysText(drill);
  if (text === "") return y;
  const at = y + SIZES.label * LEADING + 6;
  marks.push(...type.line(text, { x: 0, y: at, face: "regular", size: SIZES.label, ink: INK }));
  return at;
}

/** The settings common to all rungs; empty when there are none. */
function alwaysText(drill: Drill): string {
  const { dropout, tempo, variant } = drill.fixed;
  const hasVariants =
    (drill.pattern.parts.find(({ name }) => name === drill.student)?.variants[""] ?? undefined) === undefined;
  const words = [
    dropout === undefined ? "" : `${LADDER_NAMES.dropout} ${lengthText(dropout)}`,
    variant === undefined || !hasVariants ? "" : `${LADDER_NAMES.variant} ${variant}`,
    tempo === undefined ? "" : `${beatSign(drill.beat)} = ${tempo}`,
  ].filter((word) => word !== "");
  return words.length === 0 ? "" : `${rungs(drill).count === 1 ? "" : "Always: "}${words.join("  ·  ")}`;
}
