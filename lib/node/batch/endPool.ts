import type { EventEmitter } from "node:events";
import type { Tinypool } from "tinypool";

/**
 * Ends the threads of a pool. The pool waits for them by `once` of Node's events, which takes its listeners off a thread that fails meanwhile; what stands
 * for a thread in the pool cannot do that, and the error would end the process. A thread that fails now is none either way.
 */
export async function endPool(pool: Tinypool): Promise<void> {
  for (const worker of pool.threads as readonly { readonly thread?: EventEmitter }[])
    Object.assign(worker, {
      removeListener: (event: string, listener: () => void) => worker.thread?.removeListener(event, listener),
    });
  await pool.destroy().catch(() => undefined);
}
