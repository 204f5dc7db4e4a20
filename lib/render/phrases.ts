import type { Score } from "../schema/index.js";
import { type Words, wordSettings } from "../words/index.js";

/** A blank at which no line breaks. */
export const HARD_BLANK = "\u00a0";

/** "dropout=1/2 bar,tempo=96" as "silence 1/2 bar, tempo 96", with no line end between a name and its value. */
export function settingsWords(rung: string, words: Pick<Words<"setting">, "say">): string {
  if (rung === "") return "";
  const settings = rung.split(",").map((setting) => {
    const [first = ""] = setting.slice(setting.indexOf("=") + 1).split(" ");
    return wordSettings(setting, words).replace(` ${first}`, () => `${HARD_BLANK}${first}`);
  });
  return words.say("setting.all", { settings });
}

/** A whole number with its thousands set apart: "1 000 000". */
export function grouped(count: number): string {
  return `${count}`.replaceAll(/\B(?=(?:\d{3})+$)/g, HARD_BLANK);
}

/** The text with its first letter as a capital. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The dropouts of a score in which something falls silent: none in a mix in which every part that sounds plays on through them. */
export function silencesHeard({ dropouts }: Pick<Score, "dropouts">): Score["dropouts"] {
  return dropouts.filter(({ parts, silent }) => silent || parts.length > 0);
}
