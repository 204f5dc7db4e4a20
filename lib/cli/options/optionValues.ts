import { InvalidArgumentError } from "commander";
import { isTimestamp } from "../../time/index.js";
import { misuse, type Outcome, type Setting } from "../outcome.js";

/** Reads a whole number of an option; any other text is misuse. */
export function wholeNumber(least: number, most: number = Number.MAX_SAFE_INTEGER): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!/^\d+$/.test(text) || value < least || value > most) {
      throw new InvalidArgumentError(
        `It must be a whole number from ${least}${most < Number.MAX_SAFE_INTEGER ? ` to ${most}` : ""}.`,
      );
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
    throw new InvalidArgumentError(`It must be a number from -${LONGEST_DELAY_MS} to ${LONGEST_DELAY_MS}.`);
  }
  return value;
}

/** Longest recording, seconds. */
const LONGEST_SECONDS = 14_400;

/** Reads a number of seconds of an option. */
export function seconds(text: string): number {
  const value = Number(text);
  if (!/^\d+(?:\.\d+)?$/.test(text) || value > LONGEST_SECONDS) {
    throw new InvalidArgumentError(`It must be a number of seconds from 0 to ${LONGEST_SECONDS}.`);
  }
  return value;
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
