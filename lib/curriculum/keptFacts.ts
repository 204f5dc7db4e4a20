import type { RecordingFacts } from "../pattern/index.js";

/** What is known of a recording as bytes, which a store keeps under its path in the place of the sound. */
export function keptFacts(facts: RecordingFacts): Uint8Array {
  return new TextEncoder().encode(JSON.stringify({ recording: facts }));
}

/** What is known of a recording by the bytes that `keptFacts` made; `undefined` for others. */
export function factsKept(bytes: Uint8Array | undefined): RecordingFacts | undefined {
  try {
    const value: unknown = JSON.parse(new TextDecoder().decode(bytes));
    const facts = (value as { readonly recording?: Partial<RecordingFacts> } | null)?.recording;
    return typeof facts?.sha256 === "string" ? { ...facts, sha256: facts.sha256 } : undefined;
  } catch {
    return undefined;
  }
}
