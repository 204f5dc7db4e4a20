import { nearestName } from "../../base/index.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, MISUSE, type Outcome, printJson, type Setting } from "../outcome.js";

/** Adds `explain` to the program. */
export function explainCommand(command: AddCommand, act: Act): void {
  command("explain", "what the code of a problem means, with a line that has it")
    .argument("<CODE>")
    .action((code: string) => act((setting) => explain(setting, code)));
}

/** `leeway explain CODE`: what a code means, a line that has the problem, and what to do about it. The table is loaded by this command only. */
async function explain(setting: Setting, written: string): Promise<Outcome> {
  const { EXPLANATIONS } = await import("./generated/explanations.js");
  const code = written.trim().toUpperCase();
  const found = Object.hasOwn(EXPLANATIONS, code) ? EXPLANATIONS[code] : undefined;
  if (found === undefined) {
    const near = nearestName(code, Object.keys(EXPLANATIONS));
    setting.terminal.tell(
      `leeway: no problem has the code ${JSON.stringify(written)}${near === undefined ? "" : `; write ${near}`}\n`,
    );
    return MISUSE;
  }
  const [severity, means, line, remedy] = found;
  if (setting.json) printJson(setting, { code, severity, means, line, remedy });
  else {
    const example = line === undefined ? "" : `\n  such a line:  ${line}\n  what to do:   ${remedy}\n`;
    setting.terminal.print(`${code} (${severity})\n${means}\n${example}`);
  }
  return DONE;
}
