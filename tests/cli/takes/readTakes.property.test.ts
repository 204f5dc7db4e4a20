import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readTakes } from "../../../lib/cli/takes/readTakes.js";
import type { Terminal } from "../../../lib/cli/terminal.js";
import { checkTake } from "../../../lib/schema/index.js";

const withInput = (bytes: Uint8Array): Terminal => ({
  print: () => undefined,
  tell: () => undefined,
  readInput: (limit) => (bytes.length > limit ? undefined : bytes),
  colours: { print: false, tell: false },
  isWatched: false,
  now: () => "2026-03-02T17:30:00Z",
});
const text = (value: string): Uint8Array => new TextEncoder().encode(value);

/** Every take is one the schema allows, or has a problem. */
async function allSound(bytes: Uint8Array): Promise<void> {
  const takes = await readTakes("-", {}, { terminal: withInput(bytes) });
  for (const { take } of takes) {
    if (take.ok) expect(checkTake(take.value).ok).toBe(true);
    else expect(take.problems.some((problem) => problem.severity === "error")).toBe(true);
  }
}

describe("readTakes()", () => {
  test("gives takes or problems for any bytes", async () => {
    await fc.assert(fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), allSound));
  });

  test("gives takes or problems for any JSON, and for any lines of it", async () => {
    await fc.assert(fc.asyncProperty(fc.json(), (json) => allSound(text(json))));
    await fc.assert(fc.asyncProperty(fc.array(fc.json()), (lines) => allSound(text(lines.join("\n")))));
  });

  test("gives takes or problems for a MIDI file with any bytes changed", async () => {
    const good = [
      0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0, 96, 0x4d, 0x54, 0x72, 0x6b, 0, 0, 0, 12, 0, 0x90, 60, 64, 96,
      0x80, 60, 0, 0, 0xff, 0x2f, 0,
    ];
    const changes = fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(changes, async (changed) => {
        const bytes = Uint8Array.from(good);
        for (const [at, byte] of changed) bytes[at] = byte;
        await allSound(bytes);
      }),
    );
  });

  test("takes deep nesting and long numbers in its stride", async () => {
    await allSound(text("[".repeat(100_000) + "]".repeat(100_000)));
    const [deep] = await readTakes("-", {}, { terminal: withInput(text("[".repeat(1e6))) });
    expect(deep).toMatchObject({ take: { ok: false, problems: [{ code: "JSON_TOO_DEEP" }] } });
    await allSound(text(`{"onsets": [1e400, ${"9".repeat(400)}]}`));
  });
});
