import type { ClassPage, ClassView } from "./page.js";
import type { Place } from "./route.js";
import { showClass } from "./views/class.js";
import { showClasses } from "./views/classes.js";
import { showPeople } from "./views/people.js";
import { showStudent } from "./views/student.js";

/** What a teacher sees at a place. */
export function showPlace(page: ClassPage, place: Exclude<Place, { readonly view: "join" }>): Promise<ClassView> {
  switch (place.view) {
    case "classes":
      return showClasses(page);
    case "class":
      return showClass(page, place);
    case "people":
      return showPeople(page, place);
    case "student":
      return showStudent(page, place);
  }
}
