import type { LearntStore, Store } from "../../lib/store/index.js";

type Method = Exclude<keyof Store, "place" | "register" | "learnt"> | `learnt.${keyof LearntStore}`;

/** A page of any browser: of playwright as well as of puppeteer. */
export interface Evaluating {
  evaluate(work: (words: Words) => Promise<string>, words: Words): Promise<string>;
}
type Words = readonly [store: string, method: string, given: string];

/** A store that works in a page of a browser, whose script is `pages/store.ts`. */
export function remoteStore(page: Evaluating, name: string): Store {
  const call = async (method: Method, ...given: readonly unknown[]): Promise<unknown> => {
    const words = JSON.stringify(given, (_, value) => (value instanceof Uint8Array ? { bytes: [...value] } : value));
    const text = await page.evaluate(
      ([store, of, all]) =>
        (globalThis as unknown as { callStore: (...words: readonly string[]) => Promise<string> }).callStore(
          store,
          of,
          all,
        ),
      [name, method, words] as const,
    );
    const said = JSON.parse(text, (_, value) =>
      typeof value === "object" && value !== null && "bytes" in value ? new Uint8Array(value.bytes) : value,
    ) as { readonly answer?: unknown; readonly failed?: string; readonly message?: string; readonly problem?: unknown };
    if (said.failed === undefined) return said.answer;
    const failure = said.failed === "RangeError" ? new RangeError(said.message) : new Error(said.message);
    throw said.problem === undefined ? failure : Object.assign(failure, { problem: said.problem });
  };
  const list = async function* (method: Method, ...given: readonly unknown[]): AsyncGenerator<never> {
    yield* (await call(method, ...given)) as never[];
  };
  return {
    place: `IndexedDB ${name}`,
    learnt: {
      // What is not there is left out of JSON.
      read: (key) => call("learnt.read", key) as ReturnType<LearntStore["read"]>,
      keep: (key, learnt) => call("learnt.keep", key, learnt) as Promise<void>,
    },
    journals: (of) => list("journals", of ?? {}),
    open: (key) => call("open", key) as ReturnType<Store["open"]>,
    summaries: (of) => call("summaries", of) as ReturnType<Store["summaries"]>,
    events: (key) => list("events", key),
    append: (key, events, revision) => call("append", key, events, revision) as ReturnType<Store["append"]>,
    merge: (key, events) => call("merge", key, events) as ReturnType<Store["merge"]>,
    erase: (student) => call("erase", student) as ReturnType<Store["erase"]>,
    verify: (key) => list("verify", ...(key === undefined ? [] : [key])),
    repair: (key) => call("repair", key) as Promise<number>,
    keepCourse: (course) => call("keepCourse", course) as ReturnType<Store["keepCourse"]>,
    course: (curriculum, edition) => call("course", curriculum, edition) as ReturnType<Store["course"]>,
    courses: (curriculum, edition) => call("courses", curriculum, edition) as ReturnType<Store["courses"]>,
    close: () => call("close") as Promise<void>,
  };
}
