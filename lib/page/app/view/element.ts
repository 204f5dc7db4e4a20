/** What an element holds: nodes, text, lists of them, or nothing. */
export type Child = Node | string | false | undefined | readonly Child[];

/** Attributes of an element. A function listens to the event of its name ("click"); `true` is an attribute without a value, `false` none. */
export type Attributes = Readonly<Record<string, string | number | boolean | undefined | ((event: Event) => void)>>;

/**
 * An HTML element. Text stays text, whatever it holds.
 *
 * @example
 * h("p", { class: "small" }, "4 of 5 notes")
 */
export function h<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const element = document.createElement(tag);
  describe(element, attributes);
  add(element, children);
  return element;
}

const SVG = "http://www.w3.org/2000/svg";

/** An element of a drawing. */
export function shape<Tag extends keyof SVGElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): SVGElementTagNameMap[Tag] {
  const element = document.createElementNS(SVG, tag);
  describe(element, attributes);
  add(element, children);
  return element;
}

/** Puts these in the place of what an element holds. */
export function fill(element: Element, ...children: readonly Child[]): void {
  element.replaceChildren();
  add(element, children);
}

function describe(element: Element, attributes: Attributes): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name, value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== undefined) element.setAttribute(name, `${value}`);
  }
}

function add(element: Element, children: readonly Child[]): void {
  for (const child of children) {
    if (child === undefined || child === false) continue;
    if (isList(child)) add(element, child);
    else element.append(child);
  }
}

function isList(child: Child): child is readonly Child[] {
  return Array.isArray(child);
}
