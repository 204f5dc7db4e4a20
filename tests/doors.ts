import { join, relative } from "node:path";
import ts from "typescript";
import { programOf } from "./compiler.js";
import { ROOT } from "./sources.js";

/** What the build makes doors of. */
const { DOORS } = (await import(/* @vite-ignore */ join(ROOT, ".ci", "doors.mjs"))) as {
  readonly DOORS: readonly { readonly door: string; readonly source: string }[];
};

/** A name that an application can import, and what it stands for. */
export interface DoorName {
  readonly door: string;
  readonly name: string;
  /** Where it is declared; two names with one origin are the same thing. */
  readonly origin: string;
  readonly kind: "function" | "value" | "type";
  readonly doc: string;
  readonly examples: readonly string[];
}

/** Door -> its file in lib, as the `exports` of package.json say. */
export function doorFiles(): ReadonlyMap<string, string> {
  return new Map(DOORS.map(({ door, source }) => [door, relative(ROOT, source)]));
}

interface OpenDoors {
  readonly checker: ts.TypeChecker;
  readonly doors: readonly (readonly [door: string, symbols: readonly ts.Symbol[]])[];
}

let opened: OpenDoors | undefined;

/** The doors as the compiler sees them: each with what its file exports. They are opened once for all tests of a process. */
export function openDoors(): OpenDoors {
  opened ??= openedDoors();
  return opened;
}

function openedDoors(): OpenDoors {
  const config = ts.readConfigFile(join(ROOT, "tsconfig.json"), ts.sys.readFile).config as object;
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, ROOT);
  const files = [...doorFiles()].map(([door, file]) => [door, join(ROOT, file)] as const);
  const program = programOf(
    files.map(([, file]) => file),
    { ...options, noEmit: true },
  );
  const checker = program.getTypeChecker();
  const symbolsOf = (file: string): readonly ts.Symbol[] =>
    checker.getExportsOfModule(checker.getSymbolAtLocation(program.getSourceFile(file)!)!);
  return { checker, doors: files.map(([door, file]) => [door, symbolsOf(file)]) };
}

/** Every name at every door, by the compiler's own account. */
export function doorNames(): readonly DoorName[] {
  const { checker, doors } = openDoors();
  return doors.flatMap(([door, symbols]) => symbols.flatMap((symbol) => namesOf(checker, door, symbol)));
}

function namesOf(checker: ts.TypeChecker, door: string, symbol: ts.Symbol): readonly DoorName[] {
  const real = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  if (real.flags & ts.SymbolFlags.ValueModule)
    return [
      { door, name: symbol.name, origin: real.name, kind: "value", doc: "", examples: [] },
      ...checker
        .getExportsOfModule(real)
        .flatMap((each) =>
          namesOf(checker, door, each).map((inner) => ({ ...inner, name: `${symbol.name}.${inner.name}` })),
        ),
    ];
  const declaration = real.declarations![0]!;
  const isValue = (real.flags & ts.SymbolFlags.Value) !== 0;
  const calls = isValue && checker.getTypeOfSymbolAtLocation(real, declaration).getCallSignatures().length > 0;
  return [
    {
      door,
      name: symbol.name,
      origin: `${declaration.getSourceFile().fileName}:${real.name}`,
      kind: calls ? "function" : isValue ? "value" : "type",
      doc: ts.displayPartsToString(real.getDocumentationComment(checker)),
      examples: real
        .getJsDocTags(checker)
        .filter(({ name }) => name === "example")
        .map(({ text }) => ts.displayPartsToString(text)),
    },
  ];
}
