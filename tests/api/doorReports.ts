import ts from "typescript";
import { openDoors } from "../doors.js";

const FULL = ts.TypeFormatFlags.NoTruncation | ts.TypeFormatFlags.UseAliasDefinedOutsideCurrentScope;
const printer = ts.createPrinter({ removeComments: true });

/** Door -> everything that can be imported there, without comments, in the order of names; what an earlier door has is named with that door only. */
export function doorReports(): ReadonlyMap<string, string> {
  const { checker, doors } = openDoors();
  const first = new Map<ts.Symbol, string>();
  return new Map(
    doors.map(([door, symbols]) => {
      const said = symbols
        .toSorted((a, b) => (a.name < b.name ? -1 : 1))
        .flatMap((symbol) => {
          const real = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
          const elsewhere = first.get(real);
          if (elsewhere === undefined) first.set(real, door);
          return elsewhere === undefined ? textOf(checker, symbol.name, real) : [`${symbol.name}: as at ${elsewhere}`];
        });
      return [door, `${said.join("\n")}\n`];
    }),
  );
}

function textOf(checker: ts.TypeChecker, name: string, symbol: ts.Symbol): readonly string[] {
  if (symbol.flags & ts.SymbolFlags.ValueModule)
    return checker.getExportsOfModule(symbol).flatMap((each) => textOf(checker, `${name}.${each.name}`, each));
  const declaration = symbol.declarations![0]!;
  if (ts.isInterfaceDeclaration(declaration) || ts.isTypeAliasDeclaration(declaration))
    return [
      printer.printNode(ts.EmitHint.Unspecified, declaration, declaration.getSourceFile()).replace(/^export /, ""),
    ];
  const type = checker.getTypeOfSymbolAtLocation(symbol, declaration);
  const calls = type.getCallSignatures();
  if (calls.length > 0)
    return calls.map((call) => `function ${name}${inOrder(checker.signatureToString(call, undefined, FULL))}`);
  return [
    `const ${name}: ${name.endsWith("InEnglish") ? "messages" : inOrder(checker.typeToString(type, undefined, FULL))}`,
  ];
}

/** A type with its choices of texts in the order of the alphabet: the compiler has them in the order in which it met them. */
function inOrder(type: string): string {
  return type.replaceAll(/"[^"]*"(?: \| "[^"]*")+/g, (choices) => choices.split(" | ").sort().join(" | "));
}
