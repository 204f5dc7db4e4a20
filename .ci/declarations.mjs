/**
 * Whether the declarations of every file of lib can be made from that file alone, as the build makes them: what it exports says its types. Types themselves are checked elsewhere
 * (`npm run check:types`), so that this takes seconds.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

const root = fileURLToPath(new URL("../", import.meta.url));
const { config } = ts.readConfigFile(`${root}lib/tsconfig.json`, ts.sys.readFile);
const { options } = ts.parseJsonConfigFileContent(config, ts.sys, `${root}lib`);
const files = readdirSync(`${root}lib`, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /(?<!\.d)\.ts$/.test(entry.name))
  .map((entry) => join(entry.parentPath, entry.name));
const told = files.flatMap((fileName) => {
  const made = ts.transpileDeclaration(readFileSync(fileName, "utf8"), {
    compilerOptions: options,
    fileName,
    reportDiagnostics: true,
  });
  return made.diagnostics.map(({ file, start = 0, messageText }) => {
    const line = file === undefined ? 0 : file.getLineAndCharacterOfPosition(start).line + 1;
    return `${relative(root, fileName)}:${line} ${ts.flattenDiagnosticMessageText(messageText, " ")}`;
  });
});
for (const each of told) console.error(each);
if (files.length < 100) throw new Error(`only ${files.length} files in lib`);
process.exitCode = told.length === 0 ? 0 : 1;
