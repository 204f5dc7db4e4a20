import type { Words } from "../../words/index.js";
import type { Me, SchoolClass, ServedCourse } from "../school/model.js";
import type { Place } from "./route.js";

/** What every view of the page of a class gets. */
export interface ClassPage {
  readonly words: Words;
  /** Who is signed in; absent: nobody. */
  readonly me: Me | undefined;
  /** The courses that the school serves; none where nobody is signed in. */
  readonly courses: readonly ServedCourse[];
  /** Goes to another place. */
  go(place: Place): void;
  /** Shows the place one is at anew, as something was changed. */
  again(): void;
  /** Says something to whoever listens instead of looks. */
  announce(text: string): void;
}

/** A view: what it shows, and the class it is of. */
export interface ClassView {
  readonly title: string;
  readonly body: readonly Node[];
  readonly of?: SchoolClass;
}

export type ShowClassView = (page: ClassPage, place: Place) => Promise<ClassView>;

/** Title of a course; its name where the school does not serve it any more. */
export function courseTitle({ courses }: ClassPage, name: string): string {
  return courses.find((course) => course.name === name)?.title ?? name;
}
