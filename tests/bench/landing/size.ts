/** How much is run: `LEEWAY_SILENCES` silences counted in each row, `LEEWAY_SEED`, and of the rows those whose name fits `LEEWAY_ROWS` (a regular expression). */
export const SIZE = {
  seed: process.env.LEEWAY_SEED ?? "quay",
  /** 800 and more for figures to be quoted; the default is a look that takes less than a minute of processor time. */
  silences: Number(process.env.LEEWAY_SILENCES ?? 16),
  rows: new RegExp(process.env.LEEWAY_ROWS ?? "", "i"),
  heldOut: process.env.HELD_OUT === "yes",
} as const;

/** The most takes a row may need for each silence counted: rows in which few silences count end here. */
export const TAKES_PER_SILENCE = 2;
