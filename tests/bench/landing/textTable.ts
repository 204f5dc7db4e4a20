/** Prints rows of cells under a head, columns aligned: the first to the left, the others to the right. */
export function printTable(title: string, head: readonly string[], rows: readonly (readonly string[])[]): void {
  const widths = head.map((cell, column) =>
    Math.max(...[head, ...rows].map((row) => (row[column] ?? "").length), cell.length),
  );
  const lineOf = (row: readonly string[]): string =>
    head
      .map((_, column) =>
        column === 0 ? (row[0] ?? "").padEnd(widths[0]!) : (row[column] ?? "").padStart(widths[column]!),
      )
      .join("  ");
  console.log(`\n${title}\n`);
  console.log(lineOf(head));
  console.log("-".repeat(widths.reduce((sum, width) => sum + width, 2 * (head.length - 1))));
  for (const row of rows) console.log(lineOf(row).trimEnd());
}
