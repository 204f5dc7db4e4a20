import { columnsOf } from "../../base/index.js";

/** Rows as aligned columns, with two blanks between. Columns whose heading begins with a blank are aligned to the right. */
export function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = headings.map((heading, i) =>
    Math.max(columnsOf(heading.trim()), ...rows.map((row) => columnsOf(row[i] ?? ""))),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => {
        const blanks = " ".repeat(Math.max(0, widths[i]! - columnsOf(cell)));
        return headings[i]!.startsWith(" ") ? blanks + cell : cell + blanks;
      })
      .join("  ")
      .trimEnd();
  return [line(headings.map((heading) => heading.trim())), ...rows.map(line)].map((each) => `  ${each}\n`).join("");
}
