import { isStoreProblem, type Store } from "../../../lib/store/index.js";
import { openIndexedDb } from "../../../lib/store/indexeddb/index.js";

const stores = new Map<string, Store>();

async function storeOf(name: string): Promise<Store> {
  const known = stores.get(name);
  if (known !== undefined) return known;
  const opened = await openIndexedDb({ name });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  stores.set(name, opened.value);
  return opened.value;
}

/** Bytes as plain data, and back. */
const plain = (_: string, value: unknown): unknown => (value instanceof Uint8Array ? { bytes: [...value] } : value);
const bytes = (_: string, value: unknown): unknown =>
  typeof value === "object" && value !== null && "bytes" in value ? new Uint8Array(value.bytes as number[]) : value;

/** Calls a method of the store of this name; given and answered as JSON, which carries every name there can be. */
async function callStore(name: string, method: string, words: string): Promise<string> {
  const store = await storeOf(name);
  try {
    const given = JSON.parse(words, bytes) as unknown[];
    const [of, part] = method.split(".");
    const owner = part === undefined ? store : store[of as "learnt"];
    const called = (owner as unknown as Record<string, (...given: unknown[]) => unknown>)[part ?? of!]!(...given);
    const isList = typeof called === "object" && called !== null && Symbol.asyncIterator in called;
    let answer = isList ? [] : await called;
    if (isList) for await (const each of called as AsyncIterable<unknown>) (answer as unknown[]).push(each);
    if (method === "close") stores.delete(name);
    answer = { answer };
    return JSON.stringify(answer, plain);
  } catch (error) {
    const { name: kind, message } = error as Error;
    return JSON.stringify({ failed: kind, message, problem: isStoreProblem(error) ? error.problem : undefined });
  }
}

Object.assign(globalThis, { callStore });
