import { EventEmitter, once } from "node:events";
import type { Tinypool } from "tinypool";
import { expect, test } from "vitest";
import { endPool } from "../../../lib/node/batch/endPool.js";

test("a thread that fails while its pool ends does not end the process", async () => {
  const thread = new EventEmitter();
  // As the pool has it: what stands for a thread passes `once` on and knows no `removeListener`.
  const worker = {
    thread,
    once: (event: string, listener: () => void) => thread.once(event, listener),
    on: (event: string, listener: () => void) => thread.on(event, listener),
  };
  const pool = {
    threads: [worker],
    destroy: async () => {
      const left = once(worker as unknown as EventEmitter, "exit");
      thread.emit("error", new Error("no file of that name"));
      await left;
    },
  };
  await expect(endPool(pool as unknown as Tinypool)).resolves.toBeUndefined();
  expect(thread.listenerCount("exit")).toBe(0);
});
