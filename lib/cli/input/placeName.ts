import type { Words } from "../../words/index.js";

/** What stands for the name of a file where standard input was read. */
export const STANDARD_INPUT = "standard input";

/** The name of a file for people; that of standard input in their language. */
export function placeName(file: string, { say }: Pick<Words<"cli">, "say">): string {
  return file === STANDARD_INPUT ? say("cli.standard-input") : file;
}
