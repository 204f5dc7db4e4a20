import { readFile } from "node:fs/promises";
import { Ajv2020 } from "ajv/dist/2020.js";
import standalone from "ajv/dist/standalone/index.js";
import { build } from "esbuild";
import { parse } from "yaml";
import { chooseBranches } from "./choices.mjs";
import { target } from "./sources.mjs";

// RFC 3339 section 5.6, ranges of every field as there; 31 days are allowed in every month.
const DATE = "\\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\\d|3[01])";
const TIME = "(?:[01]\\d|2[0-3]):[0-5]\\d:(?:[0-5]\\d|60)(?:\\.\\d+)?(?:[Zz]|[+-](?:[01]\\d|2[0-3]):[0-5]\\d)";

/** Validators as ES modules without `require` or `eval`: `[name, source]` for each schema. */
export async function compileValidators(schemas) {
  const ajv = new Ajv2020({
    allErrors: true,
    allowUnionTypes: true,
    code: { esm: true, lines: false, source: true },
    messages: false,
    strict: true,
    strictRequired: false,
    useDefaults: true,
    verbose: true,
  });
  ajv.addFormat("date", new RegExp(`^${DATE}$`));
  ajv.addFormat("date-time", new RegExp(`^${DATE}[Tt ]${TIME}$`));
  ajv.addVocabulary(["x-choices", "x-tag"]);
  for (const [name, schema] of schemas) {
    const resolve = (piece) => {
      if (piece?.$ref === undefined) return piece;
      const { $ref, ...beside } = piece;
      const found = target(schemas, name, $ref);
      return { ...(found.owner === name ? resolve(found.piece) : found.piece), ...beside };
    };
    const written = WRITTEN_IN_YAML.has(name) ? flowText : JSON.stringify;
    ajv.addSchema(withLetters(withoutTexts(chooseBranches(schema, resolve), written)));
  }
  const compiled = [];
  for (const [name, schema] of schemas) {
    try {
      compiled.push([name, await moduleOf(ajv, { validate: schema.$id })]);
    } catch (error) {
      throw new Error(`${name}.schema.json: ${error.message}`);
    }
  }
  return compiled;
}

/** What compiled validators of a library instance are as one ES module: `names` says which schema each exported name is of. */
export function moduleOf(ajv, names) {
  return bundle(limited(standalone.default(ajv, names)));
}

/**
 * Every sign that is not ASCII, as the patterns of names have it. Classes of letters (`\p{L}`) are not known to all readers of schemas, so the
 * schemas take more; the validators made here take letters and digits only.
 */
const NOT_ASCII = "\u0080-\u{10ffff}";

/** Documents that people write in YAML; the others are JSON. */
const WRITTEN_IN_YAML = new Set(["curriculum", "population"]);

/** Most characters of an example that a problem quotes. Our choice: two lines of a terminal. */
const LONGEST_EXAMPLE = 120;

/**
 * Without what documentation says in English: a problem is worded by the catalogue of its language. Of the examples the first is left, as the text that a
 * problem quotes: `written` says how a value that is no text is written. A property may be called "description".
 */
function withoutTexts(schema, written, isMap = false) {
  if (Array.isArray(schema)) return schema.map((each) => withoutTexts(each, written));
  if (schema === null || typeof schema !== "object") return schema;
  const kept = Object.entries(isMap ? schema : withItemExample(schema)).filter(
    ([key]) => isMap || (key !== "description" && key !== "$comment"),
  );
  return Object.fromEntries(
    kept.flatMap(([key, value]) => {
      if (!isMap && key === "examples") {
        const text = typeof value[0] === "string" ? value[0] : written(value[0]);
        return text.length > LONGEST_EXAMPLE ? [] : [[key, [text]]];
      }
      if (!isMap && ["const", "enum", "default"].includes(key)) return [[key, value]];
      return [[key, withoutTexts(value, written, !isMap && ["properties", "$defs"].includes(key))]];
    }),
  );
}

/** With an example for the entries of a list that has one as a whole. */
function withItemExample(schema) {
  const [first] = [schema.examples?.[0]].flat();
  const { items } = schema;
  if (first === undefined || items === undefined || items.examples || items.enum || items.$ref) return schema;
  return { ...schema, items: { ...items, examples: [first] } };
}

/** A value as a person writes it on a line of YAML: `{ clean: 3, of: 4 }`. Fails where that would need quotes. */
function flowText(value) {
  const text = (inner) => {
    if (Array.isArray(inner)) return `[${inner.map(text).join(", ")}]`;
    if (inner === null || typeof inner !== "object") return String(inner);
    const keys = Object.entries(inner).map(([key, each]) => `${key}: ${text(each)}`);
    return keys.length === 0 ? "{}" : `{ ${keys.join(", ")} }`;
  };
  const written = text(value);
  if (JSON.stringify(parse(written)) !== JSON.stringify(value))
    throw new Error(`the example ${written} does not read as ${JSON.stringify(value)}`);
  return written;
}

function withLetters(schema) {
  if (Array.isArray(schema)) return schema.map(withLetters);
  if (schema === null || typeof schema !== "object") return schema;
  const narrowed = ([key, value]) =>
    key === "pattern" && typeof value === "string"
      ? [key, value.replaceAll(NOT_ASCII, "\\p{L}\\p{N}")]
      : [key, withLetters(value)];
  return Object.fromEntries(Object.entries(schema).map(narrowed));
}

/** Complaints after which a validator gives up; our choice: more than anybody reads, and a hostile document gets no further. */
const MOST_COMPLAINTS = 2000;

/**
 * The validator's source, made to give up after so many complaints by throwing those it has: the library collects without limit, and copies the list for
 * every definition that is referred to. Each complaint is made by a call and without what nobody reads of it, which is a third of the text.
 */
function limited(source) {
  const made = `function complaint(instancePath, keyword, params, parentSchema, data, propertyName) {
  return { instancePath, keyword, params, parentSchema, data, propertyName };
}
function collect(list, more) {
  if (list === null) return more;
  for (const each of more) list.push(each);
  if (list.length >= ${MOST_COMPLAINTS}) throw list;
  return list;
}
`;
  const called = source.replaceAll(
    COMPLAINT,
    (_, place = "instancePath", keyword, params, piece, data = "data", name) => {
      return `complaint(${[place, keyword, params, piece, data, ...(name === undefined ? [] : [name])].join()})`;
    },
  );
  const pushed = called.replaceAll(
    /if\(vErrors === null\)\{vErrors = \[(err\d+)\];\}else \{vErrors\.push\(\1\);\}/g,
    "vErrors = collect(vErrors, [$1]);",
  );
  const joined = pushed.replaceAll(/vErrors\.concat\(([\w.]+)\)/g, "collect(vErrors, $1)");
  if (/vErrors\.(?:push|concat)\(|schemaPath:"/.test(joined))
    throw new Error(
      `the validator collects complaints in a way that is not known here: ${/.{80}(?:vErrors\.(?:push|concat)\(|schemaPath:").{200}/.exec(joined)?.[0]}`,
    );
  return made + joined;
}

/** An expression without braces outside of strings. */
const VALUE = String.raw`(?:"(?:[^"\\]|\\.)*"|[^{}"])*?`;

/** A complaint as the library writes it: place, keyword, parameters, the schema it is of, the value; the name, where it is of a name. */
const COMPLAINT = new RegExp(
  String.raw`\{instancePath(?::(${VALUE}))?,schemaPath:${VALUE},keyword:("[^"]+"),params:(\{${VALUE}\}),schema:${VALUE},parentSchema:(${VALUE}),data(?::(\w+))?(?:,propertyName:(\w+))?\}`,
  "g",
);

async function bundle(source) {
  const result = await build({
    bundle: true,
    charset: "utf8",
    format: "esm",
    legalComments: "none",
    minify: true,
    platform: "neutral",
    plugins: [withoutSourceReferences],
    stdin: { contents: source, resolveDir: import.meta.dirname },
    target: "es2022",
    write: false,
  });
  return result.outputFiles[0].text;
}

/** The validator library's runtime keeps, as text, how to `require` itself; bundled, that is dead weight. */
const withoutSourceReferences = {
  name: "without source references",
  setup(builder) {
    builder.onLoad({ filter: /ajv[\\/]dist[\\/]runtime[\\/]\w+\.js$/ }, async ({ path }) => ({
      contents: (await readFile(path, "utf8")).replace(/^\w+\.code = .*$/m, ""),
    }));
  },
};
