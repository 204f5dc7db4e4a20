#!/usr/bin/env node
import { leeway } from "./program.js";
import { leaveWithReader, thisTerminal } from "./terminal.js";

/** How a program ends that is wrong itself: EX_SOFTWARE of BSD's sysexits.h. */
const DEFECT = 70;

leaveWithReader();
// A decoder writes of its troubles to the console; they are answered as problems.
console.error = () => undefined;
const terminal = thisTerminal();
try {
  process.exitCode = await leeway(process.argv.slice(2), terminal);
} catch (error) {
  // Wrong input is answered with problems; what arrives here is nobody's fault but ours, and the trace helps to mend it.
  terminal.tell(
    `leeway: this is a defect in leeway, not in your input\n${error instanceof Error ? error.stack : error}\n`,
  );
  process.exitCode = DEFECT;
}
