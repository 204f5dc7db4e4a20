import { homedir } from "node:os";
import { join } from "node:path";

/**
 * The cache folder of this program for a user: XDG Base Directory Specification on Unix (`$XDG_CACHE_HOME`, else ~/.cache), `Library/Caches` on macOS,
 * `%LOCALAPPDATA%` on Windows.
 */
export function cacheFolder({
  env: environment,
  platform,
}: Pick<NodeJS.Process, "env" | "platform"> = process): string {
  const { XDG_CACHE_HOME, LOCALAPPDATA, HOME = homedir() } = environment;
  const folder =
    platform === "win32"
      ? (LOCALAPPDATA ?? join(HOME, "AppData", "Local"))
      : platform === "darwin"
        ? join(HOME, "Library", "Caches")
        : XDG_CACHE_HOME || join(HOME, ".cache");
  return join(folder, "leeway", "rehearsal");
}
