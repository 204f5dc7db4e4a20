import type { Note, Part, RecordedTake } from "../pattern/index.js";

/**
 * The notes of a part in a variant: its notes of that variant, else those of its only variant (`""` when it has no variants);
 * `undefined` when it has several variants and not this one.
 */
export function notesOf(part: Part, variant: string | undefined): readonly Note[] | undefined {
  if (variant !== undefined && Object.hasOwn(part.variants, variant)) return part.variants[variant];
  const all = Object.values(part.variants);
  return all.length === 1 ? all[0] : undefined;
}

/** The recordings that are heard in a variant, as `notesOf` finds its notes; `undefined` where it was not recorded. */
export function recordedOf(part: Part, variant: string | undefined): readonly RecordedTake[] | undefined {
  const names = Object.keys(part.variants);
  const name = variant !== undefined && names.includes(variant) ? variant : names.length === 1 ? names[0] : undefined;
  return name === undefined ? undefined : part.recorded?.[name];
}

/** The names of a part's variants; none for a part without variants. */
export function variantsOf(part: Part): readonly string[] {
  return Object.keys(part.variants).filter((name) => name !== "");
}
