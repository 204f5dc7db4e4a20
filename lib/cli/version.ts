import { readFileSync } from "node:fs";

/** The version in the package's own manifest. */
export const version: string = (
  JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as { version: string }
).version;
