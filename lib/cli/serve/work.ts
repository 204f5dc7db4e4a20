import { openHearingQueue } from "../../server/index.js";
import type { Act, AddCommand } from "../command.js";
import { wholeNumber } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { untilInterrupted } from "../page/untilInterrupted.js";
import { databaseOf, storeOption } from "../store/openStore.js";

interface WorkOptions {
  readonly store?: string;
  readonly threads?: number;
}

/** Adds `work` to the program. */
export function workCommand(command: AddCommand, act: Act): void {
  storeOption(command("work", "hear the recordings that servers of a school with --workers are sent"))
    .option("--threads <NUMBER>", "recordings heard at once; as many as cores when left out", wholeNumber(1, 256))
    .action((options: WorkOptions) => act((setting) => work(setting, options)));
}

/** `leeway work`: hears recordings until it is interrupted; then it ends those it has begun. */
async function work(setting: Setting, options: WorkOptions): Promise<Outcome> {
  const { terminal, json, words } = setting;
  const place = databaseOf(options);
  if (place === undefined) return misuse(setting, words.say("cli.misuse.workers-need-postgres"));
  const queue = await openHearingQueue(place);
  if (!queue.ok) return refuse(setting, queue.problems);
  let count = 0;
  const working = queue.value.work({
    ...(options.threads && { threads: options.threads }),
    heard: (ms) => {
      count += 1;
      // Names nobody: how long it took is all that is told of a recording.
      if (json) printJson(setting, { heardMs: Math.round(ms) });
    },
  });
  if (!json) terminal.print(`${words.say("cli.work-begun")}\n`);
  await untilInterrupted();
  await working.end();
  await queue.value.close();
  if (!json) terminal.print(`${words.say("cli.work-ended", { count })}\n`);
  return DONE;
}
