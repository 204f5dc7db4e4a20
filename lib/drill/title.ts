import type { Drill } from "./model.js";

/** The title of a drill for people: its own, else that of its pattern, else its name. */
export function titleOf({ title, pattern, name }: Pick<Drill, "title" | "name" | "pattern">): string {
  return title ?? pattern.title ?? name;
}
