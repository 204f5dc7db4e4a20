/**
 * Where a catalogue of problems stands beside what makes problems of it (`problemsOf(catalogue)`), that gets the codes of advice alone: what it does not know
 * is an error. So the list of all codes is in an application only where it imports the catalogue.
 */

/** The text of a file with the codes of advice for catalogues. */
export function severitiesAlone(text, path) {
  if (!/[\\/]codes\.ts$/.test(path)) return text;
  const catalogues = new Map(
    Array.from(text.matchAll(/\b(\w+Codes) = \{([^}]*)\}/g), ([, name, rows]) => [name, rows.match(/\w+: "advice"/g)]),
  );
  return text.replace(/\bproblemsOf\((\w+)\)/g, (whole, name) =>
    catalogues.has(name) ? `problemsOf({ ${(catalogues.get(name) ?? []).join(", ")} })` : whole,
  );
}
