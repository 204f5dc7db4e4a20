import type { RehearsingProgress } from "../../node/index.js";
import type { Terminal } from "../terminal.js";

/** Width of the bar, characters. */
const WIDTH = 30;

/** A bar on standard error that is drawn over and over; none where nobody sees it come and go. */
export function progressBar({ tell, colours }: Pick<Terminal, "tell" | "colours">): {
  readonly show: (progress: RehearsingProgress) => void;
  readonly clear: () => void;
} {
  if (!colours.tell) return { show: () => {}, clear: () => {} };
  let shown = "";
  return {
    show: ({ of, done, total }) => {
      const full = Math.floor((WIDTH * done) / Math.max(1, total));
      const bar = `${"=".repeat(full)}${" ".repeat(WIDTH - full)}`;
      const line = `\r[${bar}] ${done}/${total}${of === "rungs" ? " *" : ""}`;
      if (line !== shown) tell(line);
      shown = line;
    },
    clear: () => tell("\r\u001b[K"),
  };
}
