/** A piece of escaped XML. */
export type Xml = string;
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element with its children, each on its own line. Attributes that are `undefined` are left out. */
export function element(name: string, attributes: Attributes, children: readonly Xml[]): Xml {
  const opening = `<${name}${attributesText(attributes)}`;
  const inside = children.filter((child) => child !== "");
  if (inside.length === 0) return `${opening}/>`;
  return `${opening}>\n${inside.join("\n")}\n</${name}>`;
}

/** An element with a text or a number. */
export function textElement(name: string, text: string | number, attributes: Attributes = {}): Xml {
  return `<${name}${attributesText(attributes)}>${escaped(String(text))}</${name}>`;
}

/** An empty element. */
export function emptyElement(name: string, attributes: Attributes = {}): Xml {
  return `<${name}${attributesText(attributes)}/>`;
}

function attributesText(attributes: Attributes): string {
  return Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join("");
}

/** Escapes text for XML 1.0. Control characters and lone surrogates, which XML 1.0 does not allow, become U+FFFD. */
function escaped(text: string): string {
  return text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu, "\ufffd")
    .replace(/[&<>"\r\n\t]/g, (character) => ENTITIES[character] ?? character);
}

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "\r": "&#13;",
  "\n": "&#10;",
  "\t": "&#9;",
};
