import type { MessageText, Phrase } from "../base/index.js";
import { digitsOf, type Language, listed, localised, type PluralForm } from "./language.js";

/** What compiled messages are worded with. Throws `TypeError` for values of another type than the message needs. */
export interface Wording<Form extends PluralForm = PluralForm> {
  /** A number with at least `least` and at most `most` decimals; without these a whole number. */
  number(value: number, least?: number, most?: number): string;
  /** The form of a text that goes with a number written with these decimals. */
  plural(value: number, forms: Readonly<Record<Form, string>>, least?: number, most?: number): string;
  /** A text; a list is joined as the language joins one, or by commas alone, for a message that ends it with "or". */
  text(value: MessageText, hasCommas?: boolean): string;
}

/** Compiled messages by key. Each takes parameters of its own, which only the keys tell: see `CatalogueOf`. */
export type Compiled = Readonly<Record<string, (parameters: never, wording: Wording<never>) => string>>;

/** The wording of a language by these messages. Phrases inside messages are looked up among them. */
export function wordingOf(language: Language, messages: Compiled): Wording {
  const wording: Wording = {
    number: (value, least = 0, most = least) => localised(digitsOf(value, least, most), language),
    plural: (value, forms, least = 0, most = least) =>
      forms[language.plural(digitsOf(value, least, most))] ?? forms.other,
    text: (value, hasCommas = false) => {
      if (typeof value === "string") return value;
      if (isList(value)) {
        const members = value.map((member) => wording.text(member));
        return hasCommas ? members.join(language.between) : listed(members, language);
      }
      return worded(messages, value, wording);
    },
  };
  return wording;
}

/** A message in words. Throws `RangeError` when there is no such message, `TypeError` when its parameters do not fit. */
export function worded(
  messages: Compiled,
  { key, parameters }: { readonly key: string; readonly parameters: object },
  wording: Wording,
): string {
  const message = Object.hasOwn(messages, key) ? messages[key] : undefined;
  if (message === undefined) throw new RangeError(`there is no message ${key}`);
  return message(parameters as never, wording as Wording<never>);
}

function isList(value: MessageText): value is readonly (string | Phrase)[] {
  if (typeof value === "object" && value !== null) return Array.isArray(value);
  throw new TypeError(`a message needs a text, got ${value}`);
}
