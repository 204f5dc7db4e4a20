export type Piece = { readonly [key: string]: unknown };

/** The form of a value in words: of what kind it is, and between which bounds. `follow` gives what a piece refers to. */
export function formOf(given: unknown, follow: (piece: Piece) => Piece): string {
  const piece = follow(given as Piece);
  const { type, items, prefixItems, minimum, maximum, exclusiveMinimum } = piece;
  const choices = (piece.enum ?? ("const" in piece ? [piece.const] : undefined)) as readonly unknown[] | undefined;
  if (choices !== undefined) return choices.map((each) => `\`${each}\``).join(", ");
  if (Array.isArray(piece.oneOf)) return [...new Set(piece.oneOf.map((each) => formOf(each, follow)))].join(" or ");
  if (Array.isArray(prefixItems)) return `list of ${prefixItems.length}`;
  if (type === "array") return `list (${formOf(items, follow)})`;
  if (type === "object") return "keys";
  if (type === "string") return "text";
  if (type === "boolean") return "`true`, `false`";
  if (type === undefined) return "anything";
  const bounds =
    minimum === undefined
      ? exclusiveMinimum === undefined
        ? ""
        : " above 0"
      : maximum === undefined
        ? `, at least ${minimum}`
        : `, ${minimum} to ${maximum}`;
  return `${type === "integer" ? "whole number" : "number"}${bounds}`;
}

/** A text in a cell of a table. */
export const cell = (text: string): string => text.replaceAll("|", "\\|").replaceAll("\n", " ");
export const code = (text: string): string => (text === "" ? "" : `\`${cell(text)}\``);
