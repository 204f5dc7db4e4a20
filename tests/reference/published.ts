import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { ROOT } from "../sources.js";

/** A folder of published material beside the project, read in place and never copied. */
export interface Published {
  readonly there: boolean;
  read(file: string): string;
}

/** Says once, on the console, what is skipped when the folder is not there. */
export function published(folder: string, skips: string): Published {
  const path = join(ROOT, "..", "shared", "reference", folder);
  const there = existsSync(path);
  if (!there) console.log(`skipped: ${skips}, because ../shared/reference/${folder} is not there`);
  return { there, read: (file) => readFileSync(join(path, file), "utf8") };
}

export function near(found: number, wanted: number, tolerance: number): void {
  expect(Math.abs(found - wanted), `${found} for ${wanted} within ${tolerance}`).toBeLessThanOrEqual(tolerance);
}

/** Half a unit in the last of so many printed decimals. */
export const printed = (decimals: number): number => 0.5 * 10 ** -decimals;
