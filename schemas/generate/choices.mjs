/**
 * Rewrites every `oneOf` for the validators so that a value is judged by the one branch it was meant for.
 *
 * The schemas are written with plain `oneOf`, which editors and type generators understand. A validator that tries every branch
 * reports every branch's complaints, and cannot apply defaults inside them. So the branch is chosen first: by JSON type, then by
 * a constant that tags the branch, then by a key only that branch has. What cannot be told apart stays a `oneOf`.
 */
export function chooseBranches(schema, resolve) {
  if (Array.isArray(schema)) return schema.map((part) => chooseBranches(part, resolve));
  if (schema === null || typeof schema !== "object") return schema;
  const copy = {};
  for (const [key, value] of Object.entries(schema)) {
    // Examples, defaults and enumerations are data, not schemas.
    copy[key] = ["examples", "default", "enum", "const"].includes(key) ? value : chooseBranches(value, resolve);
  }
  if (!Array.isArray(copy.oneOf)) return copy;
  const { oneOf, ...rest } = copy;
  const choice = byType(oneOf, resolve);
  return { ...rest, ...choice };
}

const TYPES = ["null", "boolean", "integer", "number", "string", "array", "object"];

function byType(branches, resolve) {
  const typed = branches.map((branch) => ({ branch, types: typesOf(branch, resolve) }));
  if (typed.some(({ types }) => types === undefined)) return { oneOf: branches };
  const groups = new Map();
  for (const { branch, types } of typed) {
    for (const type of types.includes("number") ? types.filter((t) => t !== "integer") : types) {
      groups.set(type, [...(groups.get(type) ?? []), branch]);
    }
  }
  if (groups.has("number") && groups.has("integer")) return { oneOf: branches };
  const types = TYPES.filter((type) => groups.has(type));
  const allowed = { type: types.length === 1 ? types[0] : types };
  const steps = types.map((type) => ({ if: { type }, then: within(groups.get(type), type, resolve) }));
  // A group that only says its type again adds nothing.
  const telling = steps.filter(({ if: { type }, then }) => JSON.stringify(then) !== JSON.stringify({ type }));
  return { ...allowed, "x-choices": summaries(branches, resolve), ...(telling.length > 0 ? { allOf: telling } : {}) };
}

function within(branches, type, resolve) {
  if (branches.length === 1) return branches[0];
  if (type !== "object") return { anyOf: branches, "x-choices": summaries(branches, resolve) };
  const shapes = branches.map((branch) => resolve(branch));
  const marks = tagOf(shapes) ?? keysOf(shapes);
  if (marks === undefined) return { oneOf: branches };
  const unmarked = branches[marks.indexOf(undefined)];
  return branches.reduceRight(
    (otherwise, branch, i) =>
      branch === unmarked ? otherwise : { if: { type: "object", ...marks[i] }, then: branch, else: otherwise },
    unmarked ?? {
      not: {},
      "x-choices": summaries(branches, resolve),
      "x-tag": marks.tag,
    },
  );
}

/** The constant property that names the branch, when every branch has one and all differ. */
function tagOf(shapes) {
  const tag = Object.keys(shapes[0].properties ?? {}).find((key) => {
    const values = shapes.map((shape) => (shape.required?.includes(key) ? shape.properties?.[key]?.const : undefined));
    return values.every((value) => value !== undefined) && new Set(values).size === shapes.length;
  });
  if (tag === undefined) return undefined;
  const marks = shapes.map((shape) => ({
    required: [tag],
    properties: { [tag]: { const: shape.properties[tag].const } },
  }));
  return Object.assign(marks, { tag });
}

/** For each branch a key that it requires and no other branch knows; one branch may go without and be taken when no other fits. */
function keysOf(shapes) {
  const marks = shapes.map((shape, i) => {
    const others = shapes.filter((_, j) => j !== i);
    const own = (shape.required ?? []).find((key) => others.every((other) => !(key in (other.properties ?? {}))));
    return own === undefined ? undefined : { required: [own] };
  });
  return marks.filter((mark) => mark === undefined).length > 1 ? undefined : marks;
}

/** What a message needs to name the branches: not the branches again. */
function summaries(branches, resolve) {
  return branches.map((branch) => {
    const { title, examples, type, required } = resolve(branch);
    return JSON.parse(JSON.stringify({ title, examples, type, required: type === "object" ? required : undefined }));
  });
}

function typesOf(branch, resolve) {
  const shape = resolve(branch);
  if (shape.type !== undefined) return [shape.type].flat();
  if ("const" in shape) return [typeOf(shape.const)];
  if (Array.isArray(shape.enum)) return [...new Set(shape.enum.map(typeOf))];
  if (Array.isArray(shape.oneOf)) {
    const nested = shape.oneOf.map((part) => typesOf(part, resolve));
    return nested.includes(undefined) ? undefined : [...new Set(nested.flat())];
  }
  return undefined;
}

function typeOf(value) {
  return value === null ? "null" : Array.isArray(value) ? "array" : typeof value;
}
