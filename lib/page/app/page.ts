import type { Problem, Result } from "../../base/index.js";
import type { Keeping, TakeSound } from "../../browser/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import type { Rung } from "../../drill/index.js";
import type { Submitted } from "../../practice/index.js";
import type { Finding, Score, Take } from "../../schema/index.js";
import type { Store } from "../../store/index.js";
import type { Words } from "../../words/index.js";
import type { ListedCourse, PageIndex } from "../model.js";
import type { Route } from "./route.js";
import type { PageSchool } from "./school/school.js";
import type { OpenedCourse } from "./state/openedCourse.js";
import type { Student } from "./state/students.js";

/** What every view gets. */
export interface Page {
  readonly words: Words;
  readonly index: PageIndex;
  /** The course in use: that of the student who plays, else the first of the page. */
  readonly listed: ListedCourse | undefined;
  course(): Promise<OpenedCourse>;
  store(): Promise<Store>;
  /** Whether what is in the store stays. */
  kept(): Promise<Keeping["state"]>;
  /** Asks the browser to keep it. */
  askToKeep(): Promise<Keeping["state"]>;
  /** The school that the page came from; absent: from nowhere but a folder or a file. */
  readonly school: Promise<PageSchool> | undefined;
  /** The student who plays now. */
  readonly student: Student | undefined;
  /** The take played last; forgotten when its view is left. */
  readonly played: { current: PlayedTake | undefined };
  /** Goes to another place. */
  go(route: Partial<Route> & Pick<Route, "view">): void;
  /** Says something to whoever listens instead of looks. */
  announce(text: string): void;
}

/** A take that was played on this page. */
export interface PlayedTake {
  readonly take: Take;
  readonly score: Score;
  readonly finding: Finding;
  readonly course: Curriculum;
  readonly rung: Rung;
  /** Whether it was to find the student's rung. */
  readonly placing: boolean;
  /** The microphone's sound, kept until the view is left. */
  readonly sound: TakeSound | undefined;
  /** What should be known of how it was heard. */
  readonly advice: readonly Problem[];
  /** What came of it; absent while the store refuses it. */
  readonly submitted?: Submitted;
  /** Why it could not be kept, and what tries again. */
  readonly refused?: Problem;
  readonly again?: () => Promise<Result<Submitted>>;
}

/** A view: what it shows and what is to be done when it is left. */
export interface View {
  /** Title of the document. */
  readonly title: string;
  readonly body: readonly Node[];
  leave?(): void;
}

export type ShowView = (page: Page, route: Route) => Promise<View>;
