import * as rules from "make-plural/cardinals";

/** How a language writes numbers and lists and chooses plurals, as source: asked of Unicode CLDR once, here, so that every machine words alike. */
export function languageOf(tag) {
  const numbers = new Intl.NumberFormat(tag);
  if (numbers.resolvedOptions().locale !== tag) throw new Error(`this Node knows no language "${tag}"`);
  if (numbers.resolvedOptions().numberingSystem !== "latn")
    throw new Error(`${tag} writes numbers in other digits, which is not known here`);
  const sign = (value, type) => numbers.formatToParts(value).find((part) => part.type === type)?.value;
  const groupFrom = [4, 5].find((digits) => sign(10 ** (digits - 1), "group") !== undefined);
  const language = {
    tag,
    decimal: sign(0.5, "decimal"),
    group: sign(10 ** 6, "group") ?? "",
    groupFrom: groupFrom ?? Number.MAX_SAFE_INTEGER,
    ...joinsOf(tag),
  };
  const forms = formsBelowAMillion(tag)
    .map((form) => JSON.stringify(form))
    .join(" | ");
  return `import type { Language } from "../language.js";

export type Form = ${forms};

export const language: Language<Form> = {
  ...${JSON.stringify(language)},
  plural: ${pluralRule(tag)},
};
`;
}

/**
 * The plural forms that must be written. French, Spanish, Italian and Portuguese have one more for whole millions ("un million de prises"), which no message
 * comes to; it is worded as the last resort of a choice is, as the specification of messages has it.
 */
function formsBelowAMillion(tag) {
  const rules = new Intl.PluralRules(tag);
  const found = new Set(Array.from({ length: 10_000 }, (_, i) => [rules.select(i), rules.select(i / 100)]).flat());
  return rules.resolvedOptions().pluralCategories.filter((form) => found.has(form));
}

/**
 * What the language puts between the members of a list, and before the last, as in a list of measures: without "and" where it can go without. Japanese has
 * only blanks between measures, which do not keep names of two words apart: there it is as in a list of things.
 */
function joinsOf(tag) {
  const [measures, things] = ["unit", "conjunction"].map((type) => {
    const parts = new Intl.ListFormat(tag, { style: "short", type }).formatToParts(["a", "b", "c"]);
    return parts.filter((part) => part.type === "literal").map(({ value }) => value);
  });
  const joins = measures.every((join) => join.trim() === "") ? things : measures;
  if (joins.length !== 2) throw new Error(`${tag} joins a list in a way that is not known here`);
  return { between: joins[0], beforeLast: joins[1] };
}

function pluralRule(tag) {
  // Names of the package's functions: "pt-PT" is pt_PT.
  const byName = new Map(Object.entries(rules));
  const rule = byName.get(tag.replace("-", "_")) ?? byName.get(tag.split("-")[0]);
  if (rule === undefined) throw new Error(`there is no plural rule for "${tag}"`);
  return untyped(rule.toString());
}

/** The rule compares texts with numbers and may give a form that is not written: only its own values go unchecked, not the messages beside it. */
function untyped(rule) {
  return rule
    .replace(/^\(n\)/, /\bn\b/.test(rule.slice(3)) ? "(n: any): any" : "()")
    .replace(/\bconst [^;]+;/, (names) => names.replaceAll(/(\w+) = /g, "$1: any = "));
}
