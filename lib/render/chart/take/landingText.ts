import type { Finding } from "../../../schema/index.js";

type Dropout = Finding["dropouts"][number];

/** A slip in words: "0.5 beats late". */
export function slipText({ beats }: NonNullable<Dropout["slip"]>): string {
  const size = Math.abs(beats).toFixed(1).replace(".0", "");
  return `${size} ${size === "1" ? "beat" : "beats"} ${beats < 0 ? "early" : "late"}`;
}

/** What became of a landing that was not simply played: a slip, or that it was left out; "" otherwise. */
export function landingLost({ landing, slip }: Dropout): string {
  if (slip) return slipText(slip);
  return landing !== null && "leftOut" in landing ? "left out" : "";
}

/** How much of a silence was played, where it was less than is asked for: "played 1 of 4"; "" otherwise. */
export function tooLittleText({ played }: Dropout): string {
  return played !== undefined && played.notes < played.asked ? `played ${played.notes} of ${played.of}` : "";
}
