import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

/** Debian's General MIDI bank in the package fluidr3mono-gm-soundfont. */
export const DEBIAN_BANK = "/usr/share/sounds/sf3/FluidR3Mono_GM.sf3";

/** Whether a program of a Debian package is there; says on the console what is skipped when not. */
export function isThere(program: string, debianPackage: string, skips: string): boolean {
  const there = spawnSync("which", [program]).status === 0;
  if (!there) console.log(`skipped: ${skips}, because ${program} (Debian: ${debianPackage}) is not installed`);
  return there;
}

/** Whether Debian's bank is there; says on the console what is skipped when not. */
export function hasDebianBank(skips: string): boolean {
  const there = existsSync(DEBIAN_BANK);
  if (!there) console.log(`skipped: ${skips}, because ${DEBIAN_BANK} (Debian: fluidr3mono-gm-soundfont) is not there`);
  return there;
}
