/**
 * Imports by the file that declares what is imported, not by the room's door. A bundler that cuts a program into parts takes whoever imports from a
 * door for a user of all that anybody imports from it; without doors each part holds what it uses.
 */
import { existsSync, readFileSync } from "node:fs";
import { dirname, relative, resolve } from "node:path";
import ts from "typescript";

/** The text of a file with each named import or re-export from a door led to the declaring files. */
export function direct(text, path) {
  const file = parsed(text, path);
  let written = "";
  let end = 0;
  for (const statement of file.statements) {
    const isImport = ts.isImportDeclaration(statement);
    const names = isImport ? statement.importClause?.namedBindings : statement.exportClause;
    const from = statement.moduleSpecifier?.text;
    const isNamed = names !== undefined && (ts.isNamedImports(names) || ts.isNamedExports(names));
    const isTypes = isImport ? statement.importClause?.isTypeOnly : statement.isTypeOnly;
    if (!isNamed || isTypes || statement.importClause?.name || !/\/index\.js$/.test(from ?? "")) continue;
    const lines = names.elements
      .filter((each) => !each.isTypeOnly)
      .map((each) => {
        const found = declared(sourceOf(from, path), (each.propertyName ?? each.name).text);
        const as = `${found.name} as ${each.name.text}`;
        return `${isImport ? "import" : "export"} { ${as} } from ${JSON.stringify(specifierOf(found.file, path))};`;
      });
    // On one line, so that places in errors stay where they are.
    written += `${text.slice(end, statement.getStart(file))}${lines.join(" ")}`;
    end = statement.end;
  }
  return written + text.slice(end);
}

/** Where a name that a file exports is declared, and under which name. */
function declared(file, name) {
  const { named, stars } = exportsOf(file);
  const found = named.get(name);
  if (found !== undefined) return found.file === undefined ? { file, name } : declared(found.file, found.name);
  const star = stars.find((each) => offers(each, name));
  if (star !== undefined) return declared(star, name);
  throw new Error(`${file} exports no ${name}`);
}

function offers(file, name) {
  const { named, stars } = exportsOf(file);
  return named.has(name) || stars.some((each) => offers(each, name));
}

const known = new Map();

/** What a file exports: by name, with the file it passes it on from if it does, and files it passes on whole. */
function exportsOf(path) {
  if (known.has(path)) return known.get(path);
  const named = new Map();
  const stars = [];
  for (const statement of parsed(readFileSync(path, "utf8"), path).statements) {
    if (ts.isExportDeclaration(statement)) {
      const from = statement.moduleSpecifier && sourceOf(statement.moduleSpecifier.text, path);
      if (statement.exportClause === undefined) stars.push(from);
      // `export * as name`: the file declares the name itself.
      else if (ts.isNamespaceExport(statement.exportClause)) named.set(statement.exportClause.name.text, {});
      else
        for (const each of statement.exportClause.elements)
          named.set(each.name.text, { file: from, name: (each.propertyName ?? each.name).text });
    } else if (statement.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)) {
      const names = ts.isVariableStatement(statement) ? statement.declarationList.declarations : [statement];
      for (const { name } of names) named.set(name.text, {});
    }
  }
  known.set(path, { named, stars });
  return known.get(path);
}

function sourceOf(specifier, path) {
  const file = resolve(dirname(path), specifier);
  const source = file.replace(/\.js$/, ".ts");
  return existsSync(source) ? source : file;
}

function specifierOf(file, path) {
  const way = relative(dirname(path), file).replaceAll("\\", "/").replace(/\.ts$/, ".js");
  return way.startsWith(".") ? way : `./${way}`;
}

function parsed(text, path) {
  return ts.createSourceFile(path, text, ts.ScriptTarget.ES2022);
}
