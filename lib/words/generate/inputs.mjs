/**
 * The parameters of a message: name -> { kind: "number", least, most }, { kind: "name", of } with the values that `@of` allows, or { kind: "text", hasCommas }.
 *
 * A parameter is what its function says: `:number` or `:integer` a number, `:string` a name or a choice, none a text: names and phrases. A list
 * is joined as the language does, by commas alone where `@commas` says that an "or" follows it. Of the functions' options those are known that
 * say how many decimals are shown. What is not known here throws: it would be worded otherwise than it says.
 */
export function inputsOf(message) {
  const inputs = new Map();
  const note = (expression) => {
    if (expression.type === "markup") throw new Error("markup has no place in a message here");
    if (expression.arg === undefined) throw new Error("an expression needs a parameter");
    if (expression.arg.type !== "variable") return;
    const { name } = expression.arg;
    if (inputs.has(name)) {
      if (expression.functionRef !== undefined) throw new Error(`$${name} has its function already`);
      return;
    }
    inputs.set(name, kindOf(expression, name));
  };
  for (const declaration of message.declarations) {
    if (declaration.type !== "input") throw new Error(".local has no place in a message here");
    note(declaration.value);
  }
  const patterns = message.type === "select" ? message.variants.map(({ value }) => value) : [message.pattern];
  for (const part of patterns.flat()) if (typeof part !== "string") note(part);
  return inputs;
}

function kindOf({ functionRef, attributes }, name) {
  const options = new Map(Object.entries(functionRef?.options ?? {}).map(([option, { value }]) => [option, value]));
  const take = (option) => {
    const value = options.get(option);
    options.delete(option);
    return value === undefined ? undefined : Number(value);
  };
  const of = attributes?.of?.value?.split(" ");
  const kind = kindFor(functionRef?.name, { take, of, hasCommas: attributes?.commas !== undefined }, name);
  if (options.size > 0) throw new Error(`$${name}: the option ${[...options.keys()][0]} is not known here`);
  return kind;
}

function kindFor(called, { take, of, hasCommas }, name) {
  if (called === "integer") return { kind: "number", least: 0, most: 0 };
  if (called === "number") {
    const least = take("minimumFractionDigits") ?? 0;
    // Without a largest number of decimals :number shows three, as Intl.NumberFormat does (ECMA-402, SetNumberFormatDigitOptions).
    return { kind: "number", least, most: take("maximumFractionDigits") ?? Math.max(least, 3) };
  }
  if (called === "string") return { kind: "name", of };
  if (called === undefined) return { kind: "text", hasCommas };
  throw new Error(`$${name}: the function :${called} is not known here`);
}
