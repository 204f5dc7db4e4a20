/** A cell of a table: empty when there is nothing to say. */
export type Cell = string | number | undefined;

/**
 * One line of a table in CSV (RFC 4180), its end included. What a terminal or a spreadsheet would take for a command is made harmless.
 *
 * @example
 * csvRow(["tern", 4]) // "tern,4\r\n"
 */
export function csvRow(cells: readonly Cell[]): string {
  return `${cells.map(field).join(",")}\r\n`;
}

function field(cell: Cell): string {
  if (cell === undefined) return "";
  const text = typeof cell === "number" ? `${cell}` : unformulated(visible(cell));
  return /[",\r\n]/.test(text) || text !== text.trim() ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Text without escapes: control and format characters become `·`, because a table may be shown in a terminal, and they could hide the start of a formula. */
function visible(text: string): string {
  return text.replaceAll(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, "·");
}

/**
 * Text that no spreadsheet takes for a formula. Spreadsheets pass over blanks before a formula, take tab and CR for its start, and read
 * full-width signs as well.
 */
function unformulated(text: string): string {
  return /^[\s·]*[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/u.test(text) ? `'${text}` : text;
}
