/** The names that the plural rules of Unicode CLDR give to the forms of a language. */
export type PluralForm = "zero" | "one" | "two" | "few" | "many" | "other";

/** How a language writes numbers and lists and chooses plurals; `Form` are the plural forms it has. */
export interface Language<Form extends PluralForm = PluralForm> {
  /** BCP 47 tag: "en". */
  readonly tag: string;
  readonly decimal: string;
  readonly group: string;
  /** Digits before the decimal sign from which they are grouped: 4 writes 1,234; 5 writes 1234 and 12,345. */
  readonly groupFrom: number;
  /** What stands between the members of a list, and between the last two. */
  readonly between: string;
  readonly beforeLast: string;
  /** The plural form for a number as it is written, with "." as decimal sign: "1" and "1.0" may differ. */
  plural(written: string): Form;
}

/**
 * A number in decimal digits, rounded half away from zero, with at least `least` and at most `most` decimals. What rounds to 0 has no sign.
 * Throws `TypeError` when it is not a finite number.
 */
export function digitsOf(value: number, least: number, most: number): string {
  if (typeof value !== "number" || !Number.isFinite(value))
    throw new TypeError(`a message needs a number, got ${value}`);
  const size = Math.abs(value);
  // Rounded by its shortest decimal digits: 1.005 is 1.01, although the nearest binary number lies below it.
  const shifted = Number(`${size}e${most}`);
  const fixed = (Number.isFinite(shifted) ? Number(`${Math.round(shifted)}e-${most}`) : size).toFixed(most);
  const [whole, decimals = ""] = fixed.split(".");
  const kept = decimals.slice(0, least) + decimals.slice(least).replace(/0+$/, "");
  const digits = kept === "" ? whole! : `${whole}.${kept}`;
  return value < 0 && Number(fixed) !== 0 ? `-${digits}` : digits;
}

/** A list as the language writes it: "tempo 84, one bar"; empty without members. */
export function listed(members: readonly string[], { between, beforeLast }: Language): string {
  const first = members.slice(0, -1).join(between);
  return members.length < 2 ? (members[0] ?? "") : first + beforeLast + members.at(-1);
}

/** Digits as the language writes them: "1234.5" is "1,234.5" in English. */
export function localised(digits: string, { decimal, group, groupFrom }: Language): string {
  const [whole, decimals] = digits.split(".") as [string, string?];
  const grouped =
    whole.replace("-", "").length < groupFrom ? whole : whole.replaceAll(/(?<=\d)(?=(?:\d{3})+$)/g, group);
  return decimals === undefined ? grouped : grouped + decimal + decimals;
}
