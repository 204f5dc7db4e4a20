import { nearestName } from "../../base/index.js";
import type { ReasonCode } from "../../take/index.js";
import { explainNoteWords, type KeyIn, type Words } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, misuse, type Outcome, printJson, type Setting } from "../outcome.js";

/** Adds `explain` to the program. */
export function explainCommand(command: AddCommand, act: Act): void {
  command("explain", "what a code means, of a problem or of a reason in a finding, and what to do")
    .argument("<CODE>")
    .action((code: string) => act((setting) => explain(setting, code)));
}

/** `leeway explain CODE`: what a code means, a line that has the problem, and what to do about it. The tables are loaded by this command only. */
async function explain(setting: Setting, written: string): Promise<Outcome> {
  const { EXPLANATIONS } = await import("./generated/explanations.js");
  const { NO_OBSTACLE, REASONS } = await import("../../take/index.js");
  const code = written.trim().toUpperCase();
  if (isReason(code, REASONS)) return explainReason(setting, code, NO_OBSTACLE.has(code));
  const found = Object.hasOwn(EXPLANATIONS, code) ? EXPLANATIONS[code] : undefined;
  if (found === undefined) {
    const near = nearestName(code, [...Object.keys(EXPLANATIONS), ...Object.keys(REASONS)]);
    const { say } = setting.words;
    const asked = { code: JSON.stringify(written) };
    return misuse(
      setting,
      near === undefined
        ? say("cli.misuse.no-such-code", asked)
        : say("cli.misuse.nearest-code", { ...asked, nearest: near }),
    );
  }
  const [severity, line, remedy, todoSaid] = found;
  const { say } = setting.words;
  const means = meaningOf(code, say);
  if (setting.json) printJson(setting, { code, severity, means, line, remedy });
  else {
    const [such, todo] = [say("cli.such-a-line"), say("cli.what-to-do")];
    const width = Math.max(such.length, todo.length);
    const notes = explainNoteWords({ words: todoSaid ? { remedy: todoSaid } : {} }, setting.explained, setting.words);
    const example =
      line === undefined
        ? ""
        : `\n  ${such.padEnd(width)}  ${line}\n  ${todo.padEnd(width)}  ${setting.words.word(todoSaid, remedy ?? "")}\n${notes.map((note) => `  ${" ".repeat(width)}  ${note}\n`).join("")}`;
    setting.terminal.print(
      `${say("cli.code", { code, severity: severity === "error" ? "error" : "advice" })}\n${means}\n${example}`,
    );
  }
  return DONE;
}

function isReason(code: string, reasons: Readonly<Record<ReasonCode, string>>): code is ReasonCode {
  return Object.hasOwn(reasons, code);
}

function explainReason(setting: Setting, code: ReasonCode, isNoObstacle: boolean): Outcome {
  const { say } = setting.words;
  const key = `reason.${keyOf(code) as KeyEnd<ReasonCode>}` as const;
  const [means, remedy] = [say(key), say(`${key}-remedy`)];
  const verdict = isNoObstacle ? "any" : "unclear";
  if (setting.json) printJson(setting, { code, verdict, means, remedy });
  else
    setting.terminal.print(
      `${say("cli.reason-code", { code, verdict })}\n${means}\n\n  ${say("cli.what-to-do")}  ${remedy}\n`,
    );
  return DONE;
}

/** What a code means, in one sentence. A code that has none does not come to be: a test reads all of them. */
export function meaningOf(code: string, say: Words["say"]): string {
  return say(`code.${keyOf(code)}` as KeyIn<"code">);
}

/** METER_NOT_READ as the catalogue has it: meter-not-read. */
function keyOf(code: string): string {
  return code.toLowerCase().replaceAll("_", "-");
}

type KeyEnd<Code extends string> = Code extends `${infer Head}_${infer Rest}`
  ? `${Lowercase<Head>}-${KeyEnd<Rest>}`
  : Lowercase<Code>;
