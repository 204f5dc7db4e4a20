import type { Score } from "../schema/index.js";
import { silenceLength } from "../take/index.js";
import { HARD_BLANK } from "./chart/lettering.js";

/** "dropout=1/2 bar,tempo=96" as "dropout 1/2 bar, tempo 96". */
export function settingsWords(rung: string): string {
  return rung
    .split(",")
    .map((setting) => setting.replace("=", HARD_BLANK))
    .join(", ");
}

/** "kit", "kit and bass", "kit, bass and lead". */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** "1 rung", "12 rungs". */
export function counted(count: number, one: string, many: string = `${one}s`): string {
  return `${grouped(count)}${HARD_BLANK}${count === 1 ? one : many}`;
}

/** A whole number with its thousands set apart: "1 000 000". */
export function grouped(count: number): string {
  return `${count}`.replaceAll(/\B(?=(?:\d{3})+$)/g, HARD_BLANK);
}

/** "once", "twice", "4 times". */
export function timesText(count: number): string {
  return count === 1 ? "once" : count === 2 ? "twice" : `${grouped(count)}${HARD_BLANK}times`;
}

/** A number with its sign, "−" for minus: "+12", "−7", "0". */
export function signed(value: number, digits = 0): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return value > 0 ? `+${text}` : `−${text}`;
}

/** A sentence that begins with a capital. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** How long the silences of a score are, shortest to longest, in words: "half a bar", "half a bar to 2 bars". */
export function silencesText(score: Score): string {
  const byLength = score.dropouts
    .map(({ from, to }, index) => ({ seconds: to - from, index }))
    .sort((a, b) => a.seconds - b.seconds);
  const shortest = silenceLength(score, byLength[0]!.index);
  const longest = silenceLength(score, byLength.at(-1)!.index);
  return shortest === longest ? shortest : `${shortest} to ${longest}`;
}
