import { h } from "../app/view/element.js";

export interface FieldOptions {
  readonly hint?: string;
  readonly required?: true;
  readonly value?: string;
}

/** A line of text with its label. */
export function textField(name: string, label: string, { hint, required, value }: FieldOptions = {}): HTMLElement {
  return field(name, label, hint, (described) =>
    h("input", {
      type: "text",
      id: name,
      name,
      value: value ?? "",
      autocomplete: "off",
      maxlength: 200,
      required: required === true,
      ...described,
    }),
  );
}

export interface Offered {
  readonly value: string;
  readonly label: string;
}

/** One of several, in a list. */
export function selectField(
  name: string,
  label: string,
  of: readonly Offered[],
  change?: (value: string) => void,
): HTMLElement {
  return field(name, label, undefined, (described) =>
    h(
      "select",
      {
        id: name,
        name,
        ...described,
        ...(change === undefined ? {} : { change: ({ target }) => change((target as HTMLSelectElement).value) }),
      },
      of.map((each) => h("option", { value: each.value }, each.label)),
    ),
  );
}

export function numberField(
  name: string,
  label: string,
  { hint, value, most }: { readonly hint?: string; readonly value: number; readonly most: number },
): HTMLElement {
  return field(name, label, hint, (described) =>
    h("input", { type: "number", id: name, name, value, min: 1, max: most, required: true, ...described }),
  );
}

export function dateField(name: string, label: string): HTMLElement {
  return field(name, label, undefined, () => h("input", { type: "date", id: name, name }));
}

function field(
  name: string,
  label: string,
  hint: string | undefined,
  control: (described: { readonly "aria-describedby"?: string }) => HTMLElement,
): HTMLElement {
  const id = `${name}-hint`;
  return h(
    "div",
    { class: "field" },
    h("label", { class: "label", for: name }, label),
    hint !== undefined && h("p", { class: "hint", id }, hint),
    control(hint === undefined ? {} : { "aria-describedby": id }),
  );
}
