import { readStdin, type StandardInput } from "./input/inputFile.js";

/** The standard streams of the process, whether they support colour, and the time: all input and output of a command. */
export interface Terminal extends StandardInput {
  /** Writes to standard output. */
  readonly print: (text: string) => void;
  /** Writes to standard error. */
  readonly tell: (text: string) => void;
  readonly colours: { readonly print: boolean; readonly tell: boolean };
  /** Whether a person reads standard error as it is written: it is a terminal. */
  readonly isWatched: boolean;
  /** The current time (RFC 3339). */
  readonly now: () => string;
}

/** The terminal of this process. */
export function thisTerminal(): Terminal {
  return {
    print: (text) => void process.stdout.write(text),
    tell: (text) => void process.stderr.write(text),
    readInput: readStdin,
    colours: { print: wantsColour(process.stdout), tell: wantsColour(process.stderr) },
    isWatched: process.stderr.isTTY === true,
    now: () => new Date().toISOString(),
  };
}

/** Colour is used only on a terminal that supports it, and never when NO_COLOR is set (no-color.org). */
function wantsColour(stream: NodeJS.WriteStream): boolean {
  return stream.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== "dumb";
}
