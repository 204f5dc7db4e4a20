import { success } from "../../base/index.js";
import { compileCourse } from "../../curriculum/index.js";
import { rungs } from "../../drill/index.js";
import { notThere } from "../access/mayAsk.js";
import type { Handlers } from "./handler.js";

/** Courses, as they are served and as they were. */
export const courses: Handlers<"courses" | "course" | "edition"> = {
  courses: async ({ school }) => {
    const items = [...school.courses.values()].map(({ name, edition, title, drills }) => ({
      name,
      edition,
      title,
      drills: drills.map((drill) => ({
        name: drill.name,
        title: drill.title ?? drill.name,
        rungs: rungs(drill).count,
      })),
    }));
    return success({ content: { items } });
  },
  course: async ({ school, parameters }) => {
    const course = school.courses.get(parameters.course!);
    return course === undefined ? notThere() : success({ content: compileCourse(course) });
  },
  edition: async ({ school, parameters }) => {
    const { course: name, edition } = parameters;
    const used = school.courses.get(name!);
    const course = used?.edition === edition ? used : await school.kept.find(name!, edition!);
    return course === undefined ? notThere() : success({ content: compileCourse(course) });
  },
};
