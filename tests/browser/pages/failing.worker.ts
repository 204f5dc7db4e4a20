/** A worker that begins and then fails. */
globalThis.onmessage = () => {
  throw new Error("made to fail");
};
(globalThis as unknown as Worker).postMessage({ ready: true });
