#!/usr/bin/env node
import { leeway } from "./program.js";
import { leaveWithReader, thisTerminal } from "./terminal.js";

/** Exit status for a defect of the program: EX_SOFTWARE of BSD's sysexits.h. */
const DEFECT = 70;

leaveWithReader();
// A decoder prints errors to the console; the program reports them as problems.
console.error = () => undefined;
const terminal = thisTerminal();
try {
  process.exitCode = await leeway(process.argv.slice(2), terminal);
} catch (error) {
  // Wrong input gives problems. An error that arrives here is a defect of the program; the trace helps to find it.
  terminal.tell(
    `leeway: this is a defect in leeway, not in your input\n${error instanceof Error ? error.stack : error}\n`,
  );
  process.exitCode = DEFECT;
}
