import { type Act, type AddCommand, commandsOf } from "../command.js";
import { careCommands } from "./care.js";
import { transferCommands } from "./transfer.js";

export { storeCommand } from "../store/storeCommands.js";

/** Adds `journal` and its own commands to the program. */
export function journalCommand(command: AddCommand, act: Act): void {
  const journal = commandsOf(command("journal", "journals as files, and their care"));
  transferCommands(journal, act);
  careCommands(journal, act);
}
