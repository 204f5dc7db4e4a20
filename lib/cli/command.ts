import type { Command } from "commander";
import type { Outcome, Setting } from "./outcome.js";

/** Adds a command with this name to the program. */
export type AddCommand = (name: string, description: string) => Command;

/** Sets the action of a command, which runs after its arguments were read. */
export type Act = (run: (setting: Setting) => Promise<Outcome> | Outcome) => void;

/** Adds commands to the program, or to a command that has some. */
export function commandsOf(parent: Command): AddCommand {
  return (name, description) =>
    parent
      .command(name)
      .description(description)
      .option("--json", "answer as JSON")
      .option("--language <TAG>", "the language of the answer (BCP 47); the course's, else English, when left out");
}
