import { pathOf, pointerTo } from "../schema/index.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";
import { valueAt } from "./valueAt.js";

/**
 * Problems of a course, where a key and its value are one word to YAML because the colon between them is missing: `{ clean: 3, of 4 }`. The remedy
 * gives the colon, and what follows from it (that the key is missing, that nothing is not a value) is left out. `course` is the data that was judged.
 */
export function colonForgotten(problems: readonly Problem[], course: unknown): readonly Problem[] {
  const meant = new Map<string, { readonly text: string; readonly found: Problem }>();
  for (const found of problems) {
    const pointer = found.where.pointer ?? "";
    if (meant.has(pointer)) continue;
    const text = textMeant(found, course);
    if (text !== undefined) meant.set(pointer, { text, found });
  }
  if (meant.size === 0) return problems;
  const given = new Set(
    [...meant].map(([pointer, { text }]) =>
      pointerTo([...pathOf(pointer).slice(0, -1), text.slice(0, text.indexOf(":"))]),
    ),
  );
  return problems.flatMap((each) => {
    const pointer = each.where.pointer ?? "";
    const mended = meant.get(pointer);
    if (mended !== undefined) return mended.found === each ? [withRemedy(each, mended.text)] : [];
    const key = each.code === "MISSING_KEY" ? each.words?.message?.parameters.key : undefined;
    return typeof key === "string" && given.has(pointerTo([...pathOf(pointer), key])) ? [] : [each];
  });
}

/** The key and the value as they were meant, with a colon between them. */
function textMeant({ code, where, words }: Problem, course: unknown): string | undefined {
  const path = pathOf(where.pointer ?? "");
  const written = path.at(-1) ?? "";
  const value = valueAt(course, path);
  if (code === "WRONG_TYPE" && value === null) {
    const [, key, rest] = /^([\w-]+) +(\S.*)$/.exec(written) ?? [];
    return key === undefined ? undefined : `${key}: ${rest}`;
  }
  if (code !== "UNKNOWN_KEY") return undefined;
  const { keys = [] } = words?.message?.parameters ?? {};
  for (const key of Array.isArray(keys) ? keys : []) {
    const at = typeof key === "string" ? ` ${written}`.search(new RegExp(`[^\\w-]${key}[ :=]+\\S`)) : -1;
    if (at === -1) continue;
    const rest = written.slice(at + String(key).length).replace(/^[ :=]+/, "");
    // A brace that is opened in the key: `tolerance { drift: 8 % }`.
    if (/^[{[]/.test(rest)) return `${key}: ${rest}: ${String(value)}`;
    if (value === null) return `${key}: ${rest}`;
  }
  return undefined;
}

function withRemedy(found: Problem, text: string): Problem {
  const { says, message } = say("curriculum-problem.write", { text });
  return { ...found, remedy: says, words: { ...found.words, remedy: message } };
}
