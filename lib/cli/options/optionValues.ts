import { isTimestamp } from "../../time/index.js";
import { misuse, type Outcome, type Setting } from "../outcome.js";
import { ValueMisuse } from "./misuse.js";

/** Reads a whole number of an option; any other text is misuse. */
export function wholeNumber(least: number, most: number = Number.MAX_SAFE_INTEGER): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!/^\d+$/.test(text) || value < least || value > most) {
      const asked = {
        least: `${least}`,
        most: `${most}`,
        bound: most < Number.MAX_SAFE_INTEGER ? "both" : "least",
      } as const;
      throw new ValueMisuse((say, option) => say("cli.misuse.whole-number", { ...asked, option, found: text }));
    }
    return value;
  };
}

/** Largest latency, milliseconds; the take schema has the same limit. */
const LONGEST_DELAY_MS = 2000;

/** Reads a latency of an option, in milliseconds. */
export function milliseconds(text: string): number {
  const value = Number(text);
  if (!/^[+-]?\d+(?:\.\d+)?$/.test(text) || Math.abs(value) > LONGEST_DELAY_MS) {
    throw outside(-LONGEST_DELAY_MS, LONGEST_DELAY_MS, text);
  }
  return value;
}

/** Longest recording, seconds. */
const LONGEST_SECONDS = 14_400;

/** Reads a number of seconds of an option. */
export function seconds(text: string): number {
  const value = Number(text);
  if (!/^\d+(?:\.\d+)?$/.test(text) || value > LONGEST_SECONDS) {
    throw outside(0, LONGEST_SECONDS, text);
  }
  return value;
}

/** Integrated loudness that sound can be made at, LUFS. */
const [SOFTEST, LOUDEST] = [-40, -10];

/** Reads a loudness of an option, in LUFS. */
export function loudness(text: string): number {
  const value = Number(text);
  if (!/^-\d+(?:\.\d+)?$/.test(text) || value < SOFTEST || value > LOUDEST) throw outside(SOFTEST, LOUDEST, text);
  return value;
}

/** Slowest and fastest tempo of playing, beats a minute; our choice. */
const [SLOWEST, FASTEST] = [20, 400];

/** Reads a tempo of an option, in beats a minute. */
export function tempo(text: string): number {
  const value = Number(text);
  if (!/^\d+(?:\.\d+)?$/.test(text) || value < SLOWEST || value > FASTEST) throw outside(SLOWEST, FASTEST, text);
  return value;
}

/** Reads names of an option with commas between, each one of `allowed` and once. */
export function namesAmong<Name extends string>(allowed: readonly Name[]): (text: string) => readonly Name[] {
  return (text) => {
    const names = text.split(",").map((name) => name.trim());
    const unknown = names.find((name) => !(allowed as readonly string[]).includes(name));
    if (unknown !== undefined) {
      const asked = { allowed: allowed.join(", "), found: unknown };
      throw new ValueMisuse((say, option) => say("cli.misuse.one-of", { ...asked, option }));
    }
    return [...new Set(names)] as Name[];
  };
}

/** A number that an option cannot take: it is outside its range. */
function outside(least: number, most: number, found: string): ValueMisuse {
  return new ValueMisuse((say, option) =>
    say("cli.misuse.number", { option, least: `${least}`, most: `${most}`, found }),
  );
}

export interface TimeOptions {
  /** RFC 3339. */
  readonly at?: string;
}

/** The time of the command: the given one, or now. Another text is misuse. */
export function timeFor(setting: Setting, { at = setting.terminal.now() }: TimeOptions): string | Outcome {
  if (isTimestamp(at)) return at;
  const asked = { option: "--at", example: "2026-03-02T17:30:00Z", found: at };
  return misuse(setting, setting.words.say("cli.misuse.time", asked));
}
