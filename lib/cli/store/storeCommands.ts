import { type Act, type AddCommand, commandsOf } from "../command.js";
import { DONE, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { openStore, type StoreOptions, storeOption } from "./openStore.js";

/** Adds `store` and its command to the program. */
export function storeCommand(command: AddCommand, act: Act): void {
  const store = commandsOf(command("store", "the store that journals are kept in"));
  storeOption(store("migrate", "bring the tables of an older version of leeway up to date, once")).action(
    (options: StoreOptions) => act((setting) => storeMigrate(setting, options)),
  );
}

/** `leeway store migrate`: brings tables of an older version up to date; says so when they are already. */
async function storeMigrate(setting: Setting, options: StoreOptions): Promise<Outcome> {
  const before = await openStore(options, { create: false });
  if (before.ok) await before.value.close();
  const isOlder = !before.ok && before.problems.some(({ code }) => code === "STORE_VERSION_OLDER");
  const opened = await openStore(options, { create: false, migrate: true });
  if (!opened.ok) return refuse(setting, opened.problems);
  const { place } = opened.value;
  await opened.value.close();
  if (setting.json) printJson(setting, { store: place, migrated: isOlder });
  else {
    const said = setting.words.say("cli.store-up-to-date", { store: place, was: isOlder ? "older" : "current" });
    setting.terminal.print(`${plain(said)}\n`);
  }
  return DONE;
}
