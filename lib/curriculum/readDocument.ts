import { problemsIn, resultOf } from "../base/index.js";
import type { Result } from "./problem.js";
import { contentOf } from "./yaml/data.js";
import { documentOf } from "./yaml/document.js";
import { locator } from "./yaml/locate.js";
import { swallowedIn } from "./yaml/swallowed.js";

/**
 * Reads a document in YAML that is judged by `check`, such as a population of students: its value, or all problems, each with file, line and column.
 *
 * @example
 * readDocument("population: evening class", { file: "evening.yaml", check: checkPopulation }).ok // true
 */
export function readDocument<T>(
  text: string,
  { file, check }: { readonly file: string; readonly check: (value: unknown) => Result<T> },
): Result<T> {
  const source = documentOf(text);
  if (!source.ok)
    return { ok: false, problems: source.problems.map((each) => ({ ...each, where: { file, ...each.where } })) };
  const content = contentOf(source.value);
  if (!content.ok)
    return { ok: false, problems: content.problems.map((each) => ({ ...each, where: { file, ...each.where } })) };
  const checked = check(content.value.value);
  const problems = [...content.value.problems, ...swallowedIn(source.value, content.value), ...problemsIn(checked)].map(
    locator(source.value, content.value, file),
  );
  return checked.ok ? resultOf(checked.value, problems) : { ok: false, problems };
}
