import type { RehearsalTable } from "../../rehearsal/index.js";

/** How a rehearsal may be answered and made, as options name it. */
export const FORMATS = ["text", "json", "csv", "svg"] as const;
export const TABLES: readonly RehearsalTable[] = ["students", "rungs"];
export const NEXT = ["current", "turns", "random", "nothing", "oracle", "easiest"] as const;
export const COMPARED = ["policies", "gates"] as const;

export interface RehearseOptions {
  readonly drill?: readonly string[];
  readonly students: number;
  readonly weeks?: number;
  /** Minutes of a session. */
  readonly minutes?: number;
  /** ISO 8601 dates. */
  readonly from?: string;
  readonly by?: string;
  /** File of a population. */
  readonly population?: string;
  readonly seed: string;
  readonly next: (typeof NEXT)[number];
  /** File of an old edition. */
  readonly against?: string;
  readonly suggest?: true;
  readonly compare?: (typeof COMPARED)[number];
  readonly played?: true;
  readonly as?: (typeof FORMATS)[number];
  readonly table: RehearsalTable;
  readonly width?: number;
  readonly out?: string;
  readonly shard?: readonly [number, number];
  readonly merge?: readonly string[];
  readonly workers?: number;
  readonly keep?: string;
}
