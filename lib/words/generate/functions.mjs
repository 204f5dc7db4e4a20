import { inputsOf } from "./inputs.mjs";

const TYPES = { name: "string", number: "number", text: "MessageText" };
const FORMS = ["zero", "one", "two", "few", "many", "other"];

/** A message as the source of a function of its parameters `p` and the wording `w`. */
export function functionOf({ message }, tag) {
  const inputs = inputsOf(message);
  const body = sourceOf(
    message.type === "select" ? selected(message, { inputs, tag }) : template(message.pattern, inputs),
  );
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

/** A text as pieces of the source of a template: words with the blanks after them, and what is put in. */
function template(pattern, inputs) {
  return pattern.flatMap((part) => {
    if (typeof part !== "string" && part.arg.type !== "literal")
      return [`\${${shown(part.arg.name, inputs.get(part.arg.name))}}`];
    const text = typeof part === "string" ? part : part.arg.value;
    return (text.match(/\S+\s*|\s+/g) ?? []).map((word) => word.replaceAll(/[`\\]|\$\{/g, "\\$&"));
  });
}

/** The source of a string; what is a choice from end to end is that choice. */
function sourceOf(pieces) {
  return pieces.length === 1 && pieces[0].startsWith(CHOICE)
    ? pieces[0].slice(CHOICE.length, -1)
    : `\`${pieces.join("")}\``;
}

const CHOICE = "${ ";

/** One of several texts, as pieces: what all of them begin and end with stands once. `choose` gives the source of the choice among the sources of the rest. */
function oneOf(texts, choose) {
  const [first] = texts;
  const shared = (most, at) => {
    let count = 0;
    while (count < most && texts.every((text) => at(text, count) === at(first, count))) count++;
    return count;
  };
  const shortest = Math.min(...texts.map(({ length }) => length));
  const before = shared(shortest, (text, k) => text[k]);
  const after = shared(shortest - before, (text, k) => text[text.length - 1 - k]);
  const rest = texts.map((text) => sourceOf(text.slice(before, text.length - after)));
  return [...first.slice(0, before), `${CHOICE}${choose(rest)}}`, ...first.slice(first.length - after)];
}

function shown(name, { kind, least, most, hasCommas }) {
  if (kind !== "number") return `w.text(${access(name)}${hasCommas ? ", true" : ""})`;
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
      const chosen = branch(...(input.kind === "number" ? [key, rules.select(Number(key))] : [key]));
      return oneOf([chosen, otherwise], ([then, other]) => `${found} === ${value} ? ${then} : ${other}`);
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
  return oneOf(
    all.map((form) => branch(form)),
    (texts) => {
      const written = all.map((form, k) => `${form}: ${texts[k]}`).join(", ");
      return `w.plural(${[access(name), `{ ${written} }`, ...decimals(input.least, input.most)].join(", ")})`;
    },
  );
}

function access(name) {
  return /^[A-Za-z_]\w*$/.test(name) ? `p.${name}` : `p[${JSON.stringify(name)}]`;
}

function property(name) {
  return /^[A-Za-z_]\w*$/.test(name) ? name : JSON.stringify(name);
}
