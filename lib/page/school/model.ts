import type { Report } from "../../schema/index.js";

/** What a school's server answers, as far as the page of a class reads it; `/openapi.json` of the server has all of it. */

export interface Me {
  readonly name: string;
  readonly role: "teacher" | "student";
  readonly classes: readonly SchoolClass[];
  readonly paused?: string;
}

export interface SchoolClass {
  readonly name: string;
  /** Name of its course. */
  readonly course: string;
  readonly from?: string;
  readonly to?: string;
}

export interface ServedCourse {
  readonly name: string;
  readonly edition: string;
  readonly title: string;
}

export interface InvitationShown {
  readonly class: string;
  /** Title of the course. */
  readonly course: string;
  readonly role: Me["role"];
  readonly consent: string;
  readonly name?: string;
  readonly until: string;
}

export interface ListedInvitation {
  readonly id: string;
  readonly role: Me["role"];
  readonly until: string;
  readonly name?: string;
}

export interface ListedStudent {
  readonly name: string;
  readonly since: string;
  readonly seen: string;
  readonly paused?: string;
  readonly erasedFrom?: string;
}

/** Entries of a list, and what to say as `after` for those that follow. */
export interface Listed<Item> {
  readonly items: readonly Item[];
  readonly next?: string;
}

export interface EditionEffect {
  readonly from: string;
  readonly to: string;
  readonly isAffected: boolean;
  readonly opened: readonly string[];
  readonly drills: readonly {
    readonly drill: string;
    readonly now?: string;
    readonly outcome: "stays" | "opens" | "moves" | "moves back" | "withdrawn" | "returns" | "away";
    readonly rung?: string;
    readonly rungNow?: string;
    readonly lost: { readonly takes: number; readonly credit: readonly string[] };
  }[];
}

export interface Erased {
  readonly journals: number;
  readonly events: number;
  readonly elsewhere: readonly string[];
}

/** Where those of one page of a class are. */
export interface ClassReport {
  readonly report: Report;
  readonly next?: string;
}
