import ts from "typescript";
import { ROOT } from "./sources.js";

/** Parsed files by the options that decide how they are read, then by their paths. */
const parsed = new Map<string, Map<string, ts.SourceFile | undefined>>();

/**
 * A program of TypeScript's compiler. What it reads of the house and of installed packages is parsed once for all programs of a process that read it with the same
 * options; nobody may change a file between two of them. `texts` are files that are nowhere: path -> text.
 */
export function programOf(
  files: readonly string[],
  options: ts.CompilerOptions,
  texts: ReadonlyMap<string, string> = new Map(),
): ts.Program {
  // Neither decides how a file is read.
  const { noEmit: _emits, types: _types, ...reading } = options;
  const key = JSON.stringify(reading);
  const known = parsed.get(key) ?? new Map<string, ts.SourceFile | undefined>();
  parsed.set(key, known);
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists } = host;
  host.getSourceFile = (name, version, ...rest) => {
    const text = texts.get(name);
    if (text !== undefined) return ts.createSourceFile(name, text, version);
    // What a test has written elsewhere is of that test alone.
    if (!name.startsWith(ROOT)) return getSourceFile(name, version, ...rest);
    if (!known.has(name)) known.set(name, getSourceFile(name, version, ...rest));
    return known.get(name);
  };
  host.fileExists = (name) => texts.has(name) || fileExists(name);
  return ts.createProgram(files, options, host);
}

/** What the compiler says, in one line each. */
export function said(told: readonly ts.Diagnostic[]): readonly string[] {
  return told.map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, " "));
}
