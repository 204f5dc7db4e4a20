import { h } from "./element.js";

export interface Choice<Value extends string> {
  readonly value: Value;
  readonly label: string;
  readonly hint?: string;
  readonly disabled?: boolean;
}

/** One of several, each a button to press: what is `asked`, under one legend. */
export function choices<Value extends string>(
  name: string,
  legend: string,
  {
    of,
    chosen,
    inRow,
    change,
  }: {
    readonly of: readonly Choice<Value>[];
    readonly chosen: Value | undefined;
    /** Whether they stand beside each other: short ones. */
    readonly inRow?: true;
    readonly change?: (value: Value) => void;
  },
): HTMLFieldSetElement {
  const rows = of.map(({ value, label, hint, disabled }) =>
    h(
      "label",
      { class: "choice" },
      h("input", {
        type: "radio",
        name,
        value,
        checked: value === chosen,
        disabled: disabled === true,
        ...(change === undefined ? {} : { change: () => change(value) }),
      }),
      h("span", {}, label, hint !== undefined && h("span", {}, hint)),
    ),
  );
  return h("fieldset", {}, h("legend", {}, legend), inRow ? h("div", { class: "row" }, rows) : rows);
}

/** What is chosen in a form; `undefined` when nothing is. */
export function chosenIn(form: HTMLFormElement, name: string): string | undefined {
  const value = new FormData(form).get(name);
  return typeof value === "string" ? value : undefined;
}
