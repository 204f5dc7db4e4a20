import { mkdirSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import type { Command } from "commander";
import { failure, type Problem, problemsOf, type Result } from "../../base/index.js";
import { isStoreProblem, type Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { DONE, type Outcome, PROBLEMS, refuse, type Setting } from "../outcome.js";
import { sayProblem } from "../say.js";
import { isBrokenAddress } from "./strayAddress.js";

const problem = problemsOf(fileCodes);

export interface StoreOptions {
  /** A file, or the address of a PostgreSQL database. */
  readonly store?: string;
}

/** Adds the option `--store`. */
export function storeOption(command: Command): Command {
  return command.option("--store <FILE|URL>", "where journals are kept; the user's own store when left out");
}

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * The default store: LEEWAY_STORE, else a file in the user's data folder. Journals are about people, and working folders are easily copied,
 * published and shared.
 */
export function usualStore(environment: Environment, platform: string): string {
  return environment.LEEWAY_STORE || join(dataFolder(environment, platform), "journals.sqlite");
}

/**
 * The data folder of this program for a user: XDG Base Directory Specification on Unix (`$XDG_DATA_HOME`, else ~/.local/share),
 * `Library/Application Support` on macOS, `%LOCALAPPDATA%` on Windows.
 */
export function dataFolder(environment: Environment, platform: string): string {
  const { XDG_DATA_HOME, LOCALAPPDATA, HOME = homedir() } = environment;
  const folder =
    platform === "win32"
      ? (LOCALAPPDATA ?? join(HOME, "AppData", "Local"))
      : platform === "darwin"
        ? join(HOME, "Library", "Application Support")
        : XDG_DATA_HOME || join(HOME, ".local", "share");
  return join(folder, "leeway");
}

/** The address of the named store, or of the default one, where that is a PostgreSQL database. */
export function databaseOf({ store = usualStore(process.env, process.platform) }: StoreOptions): string | undefined {
  return /^\s*postgres(?:ql)?:/i.test(store) ? store.trim() : undefined;
}

/** Opens the named store, or the default one. Only `create` makes a new store, and only `migrate` changes the tables of an older one. */
export async function openStore(
  { store }: StoreOptions,
  { create, migrate = false }: { readonly create: boolean; readonly migrate?: boolean },
): Promise<Result<Store>> {
  const usual = usualStore(process.env, process.platform);
  const place = store ?? usual;
  // Database drivers are loaded on use: most commands need none.
  const database = databaseOf({ store: place });
  if (database !== undefined)
    return (await import("../../store/postgres/index.js")).openPostgres(database, { create, migrate });
  if (/^[a-z][a-z0-9+.-]+:\/\//i.test(place) || isBrokenAddress(place)) return failure(unknownAddress(place));
  // Only the folder of the default store is created here; the caller creates the folder of a named store.
  if (create && store === undefined) {
    try {
      mkdirSync(dirname(place), { recursive: true, mode: 0o700 });
    } catch {
      // Opening the file reports the problem of its folder.
    }
  }
  return (await import("../../store/sqlite/index.js")).openSqlite(place, { create, migrate });
}

/** Runs work on a store and closes the store. Errors of the store become problems. */
export async function withStore(
  setting: Setting,
  options: StoreOptions & { readonly create: boolean },
  work: (store: Store) => Promise<Outcome>,
): Promise<Outcome> {
  const opened = await openStore(options, options);
  if (!opened.ok) return refuse(setting, opened.problems);
  try {
    return await work(opened.value);
  } catch (error) {
    if (!isStoreProblem(error)) throw error;
    return refuse(setting, [error.problem]);
  } finally {
    await opened.value.close();
  }
}

/** The outcome: done, unless an error is among the problems. */
export function outcomeOf(problems: readonly Problem[]): Outcome {
  return problems.some(({ severity }) => severity === "error") ? PROBLEMS : DONE;
}

function unknownAddress(place: string): Problem {
  const start = /^[a-z][a-z0-9+.-]+:\/\//i.exec(place)?.[0];
  const message =
    start === undefined
      ? sayProblem("cli-problem.store-address-secret")
      : sayProblem("cli-problem.store-address-unknown", { start });
  return problem("STORE_ADDRESS_UNKNOWN", message, {}, sayProblem("cli-problem.store-address-unknown-remedy"));
}
