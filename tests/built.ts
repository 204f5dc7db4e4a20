import { existsSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./sources.js";

/** What is in lib and not built: pages, and programs to read. */
const NOT_BUILT = /\.md$|[\\/]examples$/;

/** The built command line's entry; throws unless the build is there and as new as the sources. */
export function builtEntry(): string {
  const entry = join(ROOT, "dist", "cli", "main.js");
  const newest = Math.max(
    ...readdirSync(join(ROOT, "lib"), { recursive: true, withFileTypes: true })
      .filter((file) => file.isFile() && !NOT_BUILT.test(file.name) && !NOT_BUILT.test(file.parentPath))
      .map((file) => statSync(join(file.parentPath, file.name)).mtimeMs),
  );
  if (!existsSync(entry) || statSync(entry).mtimeMs < newest)
    throw new Error("dist/ is missing or older than lib/: npm run build");
  return entry;
}
