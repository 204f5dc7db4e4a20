/** The doors of the package: what `exports` of package.json names, and the file of lib that each of them is. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const lib = fileURLToPath(new URL("../lib/", import.meta.url));

/** Doors that are not the `index.ts` of the folder of their name. */
const ELSEWHERE = Object.fromEntries(
  ["plan", "rehearsal", "report", "listen", "recording", "render", "sheet", "sound", "formats"].map((door) => [
    `./${door}`,
    `doors/${door}.ts`,
  ]),
);

const { exports } = JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8"));

/** Each door: its name in `exports`, the name of its file in dist, its source. */
export const DOORS = Object.entries(exports)
  .filter(([, target]) => typeof target === "object")
  .map(([door, target]) => {
    const file = target.default.replace("./dist/", "").replace(/\.js$/, "");
    const source = `${lib}${ELSEWHERE[door] ?? `${door.slice(2)}/index.ts`}`;
    if (!existsSync(source)) throw new Error(`package.json exports ${door}, and ${source} is not there`);
    return { door, file, source };
  });
