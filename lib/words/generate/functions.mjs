import { inputsOf } from "./inputs.mjs";

const TYPES = { name: "string", number: "number", text: "MessageText" };
const FORMS = ["zero", "one", "two", "few", "many", "other"];

/** A message as the source of a function of its parameters `p` and the wording `w`. */
export function functionOf({ message }, tag) {
  const inputs = inputsOf(message);
  const body = message.type === "select" ? selected(message, { inputs, tag }) : template(message.pattern, inputs);
  const arguments_ = /\bw\./.test(body) ? "(p, w)" : /\bp\./.test(body) ? "(p)" : "()";
  return `${arguments_} => ${body}`;
}

/** The type of a message's parameters, as source. */
export function parametersOf({ message }) {
  const inputs = [...inputsOf(message)].sort(([a], [b]) => (a < b ? -1 : 1));
  if (inputs.length === 0) return "{}";
  const type = ({ kind, of }) =>
    of === undefined ? TYPES[kind] : of.map((value) => JSON.stringify(value)).join(" | ");
  return `{ ${inputs.map(([name, input]) => `${property(name)}: ${type(input)}`).join("; ")} }`;
}

function template(pattern, inputs) {
  const parts = pattern.map((part) => {
    if (typeof part === "string") return part.replaceAll(/[`\\]|\$\{/g, "\\$&");
    if (part.arg.type === "literal") return part.arg.value.replaceAll(/[`\\]|\$\{/g, "\\$&");
    return `\${${shown(part.arg.name, inputs.get(part.arg.name))}}`;
  });
  return `\`${parts.join("")}\``;
}

function shown(name, { kind, least, most }) {
  if (kind !== "number") return `w.text(${access(name)})`;
  return `w.number(${[access(name), ...decimals(least, most)].join(", ")})`;
}

function decimals(least, most) {
  return most === 0 ? [] : least === most ? [least] : [least, most];
}

/**
 * The choice among variants, selector by selector. The rules are those of the specification's "Pattern Selection": of the variants that match, the
 * one whose first key is the better match is taken, then the one whose second key is.
 */
function selected({ selectors, variants }, { inputs, tag }) {
  const rows = variants.map(({ keys, value }) => ({
    keys: keys.map((key) => (key.type === "*" ? "*" : key.value)),
    pattern: value,
    rank: [],
  }));
  const rules = new Intl.PluralRules(tag);
  const choose = (column, left) => {
    if (column === selectors.length) return template(best(left).pattern, inputs);
    const { name } = selectors[column];
    const input = inputs.get(name);
    if (input.kind === "text") throw new Error(`$${name} is chosen by: it needs :string, :number or :integer`);
    const keys = [...new Set(left.map((row) => row.keys[column]))];
    const branch = (...wanted) => {
      const order = [...wanted, "*"];
      const ranked = left.map((row) => ({ ...row, rank: [...row.rank, order.indexOf(row.keys[column])] }));
      return choose(
        column + 1,
        ranked.filter(({ rank }) => rank[column] >= 0),
      );
    };
    const exact = keys.filter((key) => key !== "*" && (input.kind !== "number" || !FORMS.includes(key)));
    const rest =
      input.kind !== "number"
        ? branch()
        : plural({ name, input, forms: keys.filter((key) => FORMS.includes(key)), branch });
    return exact.reduceRight((otherwise, key) => {
      if (input.kind === "number" && input.most > 0)
        throw new Error(`$${name} is compared with ${key}: only whole numbers can be, so it needs :integer`);
      const found = input.kind === "number" ? `Math.round(${access(name)})` : access(name);
      const value = input.kind === "number" ? Number(key) : JSON.stringify(key);
      return `${found} === ${value} ? ${branch(...(input.kind === "number" ? [key, rules.select(Number(key))] : [key]))} : ${otherwise}`;
    }, rest);
  };
  return choose(0, rows);
}

/** Of the variants that match, the best: by the first key, then by the second. */
function best(rows) {
  const order = (a, b) =>
    a.rank.map((rank, column) => rank - b.rank[column]).find((difference) => difference !== 0) ?? 0;
  return rows.toSorted(order)[0];
}

/** Every form that is written, and `other` for the rest; whether these are the language's forms is for the compiler to say. */
function plural({ name, input, forms, branch }) {
  const all = [...forms.filter((form) => form !== "other"), "other"];
  const written = all.map((form) => `${form}: ${branch(form)}`).join(", ");
  return `w.plural(${[access(name), `{ ${written} }`, ...decimals(input.least, input.most)].join(", ")})`;
}

function access(name) {
  return /^[A-Za-z_]\w*$/.test(name) ? `p.${name}` : `p[${JSON.stringify(name)}]`;
}

function property(name) {
  return /^[A-Za-z_]\w*$/.test(name) ? name : JSON.stringify(name);
}
