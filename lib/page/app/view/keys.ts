/** What a key means: start and stop for a key or a pedal that sends one, stop alone for Escape. */
export type Meaning = "start" | "stop";

/** Keys that start, and stop while something plays: the usual ones of page-turning pedals are among them (common practice, no source). */
const STARTING = new Set([" ", "Enter", "PageDown"]);

/** Listens to keys until the function it gives is called. `act` says whether it used one. */
export function onKey(act: (meaning: Meaning) => boolean): () => void {
  const listen = (event: KeyboardEvent): void => {
    if (event.repeat || event.ctrlKey || event.altKey || event.metaKey || hasOwnUse(event)) return;
    const meaning = event.key === "Escape" ? "stop" : STARTING.has(event.key) ? "start" : undefined;
    if (meaning !== undefined && act(meaning)) event.preventDefault();
  };
  addEventListener("keydown", listen);
  return () => removeEventListener("keydown", listen);
}

/** Whether what has the focus does something of its own with a key. */
function hasOwnUse({ target, key }: KeyboardEvent): boolean {
  if (!(target instanceof Element) || key === "Escape") return false;
  return target.closest("a, button, input, select, textarea, summary, [role=button]") !== null;
}
