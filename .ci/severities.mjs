/**
 * Where a catalogue of problems stands beside what makes problems of it (`problemsOf(catalogue)`), that gets the codes of advice alone: what it does not know
 * is an error. So the meanings of codes, which are for documentation, are in an application only where it imports the catalogue.
 */
import ts from "typescript";

/** The text of a file with the codes of advice for catalogues. */
export function severitiesAlone(text, path) {
  if (!/[\\/]codes\.ts$/.test(path)) return text;
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022);
  const catalogues = new Map();
  for (const statement of file.statements)
    if (ts.isVariableStatement(statement))
      for (const { name, initializer } of statement.declarationList.declarations) {
        const value = initializer && ts.isAsExpression(initializer) ? initializer.expression : initializer;
        if (value && ts.isObjectLiteralExpression(value)) catalogues.set(name.text, severitiesIn(value, file));
      }
  return text.replace(/\bproblemsOf\((\w+)\)/g, (whole, name) =>
    catalogues.get(name) === undefined ? whole : `problemsOf({ ${catalogues.get(name)} })`,
  );
}

/** `CODE: { severity: "advice" }` for each code of advice; `undefined` when the object is no catalogue. */
function severitiesIn(value, file) {
  const entries = value.properties.map((each) => {
    const severity =
      ts.isPropertyAssignment(each) && ts.isObjectLiteralExpression(each.initializer)
        ? each.initializer.properties.find((property) => property.name?.getText(file) === "severity")
        : undefined;
    return severity && { code: each.name.getText(file), severity: severity.getText(file) };
  });
  if (!entries.every(Boolean)) return undefined;
  const advice = entries.filter(({ severity }) => !severity.endsWith('"error"'));
  return advice.map(({ code, severity }) => `${code}: { ${severity} }`).join(", ");
}
