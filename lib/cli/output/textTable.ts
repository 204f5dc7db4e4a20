/** Rows as aligned columns, with two blanks between. Columns whose heading begins with a blank are aligned to the right. */
export function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = headings.map((heading, i) =>
    Math.max(width(heading.trim()), ...rows.map((row) => width(row[i] ?? ""))),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => {
        const blanks = " ".repeat(Math.max(0, widths[i]! - width(cell)));
        return headings[i]!.startsWith(" ") ? blanks + cell : cell + blanks;
      })
      .join("  ")
      .trimEnd();
  return [line(headings.map((heading) => heading.trim())), ...rows.map(line)].map((each) => `  ${each}\n`).join("");
}

function width(text: string): number {
  return [...text].length;
}
