/**
 * Marks what modules of lib compute when they are loaded as free of effects, which all of it is (`sideEffects: false`). Only so can a bundler leave a
 * constant out that nobody uses, once modules share a file.
 */
import ts from "typescript";

/** The text with the value of each constant of the module computed by a function that is marked. */
export function pure(text, path) {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022);
  let written = "";
  let end = 0;
  for (const statement of file.statements) {
    if (!ts.isVariableStatement(statement)) continue;
    for (const { initializer } of statement.declarationList.declarations) {
      if (initializer === undefined || ts.isAwaitExpression(initializer) || isPlain(initializer)) continue;
      const [from, to] = [initializer.getStart(file), initializer.end];
      written += `${text.slice(end, from)}/* @__PURE__ */ (() => (${text.slice(from, to)}))()`;
      end = to;
    }
  }
  return written + text.slice(end);
}

/** Whether every bundler sees by itself that the value has no effect. */
function isPlain(node) {
  if (ts.isAsExpression(node) || ts.isSatisfiesExpression(node) || ts.isParenthesizedExpression(node))
    return isPlain(node.expression);
  if (ts.isArrayLiteralExpression(node)) return node.elements.every(isPlain);
  if (ts.isObjectLiteralExpression(node))
    return node.properties.every(
      (each) => ts.isPropertyAssignment(each) && !ts.isComputedPropertyName(each.name) && isPlain(each.initializer),
    );
  if (ts.isPrefixUnaryExpression(node)) return ts.isNumericLiteral(node.operand);
  return (
    ts.isLiteralExpression(node) ||
    ts.isArrowFunction(node) ||
    ts.isFunctionExpression(node) ||
    [ts.SyntaxKind.TrueKeyword, ts.SyntaxKind.FalseKeyword, ts.SyntaxKind.NullKeyword].includes(node.kind)
  );
}
