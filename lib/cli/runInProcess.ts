import { leeway } from "./program.js";
import { thisTerminal } from "./terminal.js";

/** Exit status for a defect of the program: EX_SOFTWARE of BSD's sysexits.h. */
const DEFECT = 70;

/** Runs one command line on the terminal of this process and says how the process is to end. */
export async function runInProcess(words: readonly string[]): Promise<number> {
  const terminal = thisTerminal();
  try {
    return await leeway(words, terminal);
  } catch (error) {
    // Wrong input gives problems. An error that arrives here is a defect of the program; the trace helps to find it.
    terminal.tell(
      `leeway: this is a defect in leeway, not in your input\n${error instanceof Error ? error.stack : error}\n`,
    );
    return DEFECT;
  }
}
