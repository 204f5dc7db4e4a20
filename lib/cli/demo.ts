import { fileURLToPath } from "node:url";
import { demonstrate } from "./demonstrate.js";
import { leaveWithReader } from "./leaveWithReader.js";
import { thisTerminal } from "./terminal.js";

leaveWithReader();
process.chdir(fileURLToPath(new URL("../../", import.meta.url)));
// `demo -- --language TAG`
const named = process.argv.indexOf("--language");
process.exitCode = await demonstrate(thisTerminal(), named < 0 ? "en" : (process.argv[named + 1] ?? "en"));
