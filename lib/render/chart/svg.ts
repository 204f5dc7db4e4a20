/** A fragment of an SVG document. */
export type Svg = string;

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Writes an element. Attribute texts are escaped; `children` is markup and is not. */
export function element(name: string, attributes: Attributes, children: Svg = ""): Svg {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? decimal(value) : escapeText(value!)}"`)
    .join("");
  return children === "" ? `<${name}${written}/>` : `<${name}${written}>${children}</${name}>`;
}

/** A number with at most two decimals, finer than any screen; never "-0" or an exponent. Throws `RangeError` for a number that is not finite. */
export function decimal(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a drawing needs finite numbers, got ${value}`);
  return `${Math.round(value * 100) / 100 + 0}`;
}

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/**
 * Escapes a text as XML character data. Characters that XML forbids (XML 1.0, production 2: most control characters, lone surrogates) and marks
 * that change the text direction become `·`.
 */
export function escapeText(text: string): string {
  return visible(text).replaceAll(/[&<>"']/g, (character) => ENTITIES[character]!);
}

/** The text with control characters, direction marks and lone surrogates replaced by `·`, and line ends and tabs by blanks. */
export function visible(text: string): string {
  return text
    .replaceAll(/[\t\n\r]+/g, " ")
    .replaceAll(
      /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufffe\uffff]|\p{Surrogate}/gu,
      "·",
    );
}
