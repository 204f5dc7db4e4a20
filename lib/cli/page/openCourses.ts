import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import type { CourseText } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { readCourseText } from "../input/courseFile.js";
import type { Setting } from "../outcome.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** A course, and its text as a store keeps it. */
export interface OpenedCourse {
  readonly course: Curriculum;
  readonly text: CourseText;
}

/** The courses of files, each with its text; all problems of all files. Two of one name are refused: PAGE_COURSE_TWICE. */
export function openCourses(setting: Setting, files: readonly string[]): Result<readonly OpenedCourse[]> {
  const courses: OpenedCourse[] = [];
  const problems: Problem[] = [];
  const advice: Problem[] = [];
  for (const file of files) {
    const course = readCourseText(file, setting.sources);
    if (!course.ok) problems.push(...course.problems);
    else if (courses.some((each) => each.course.name === course.value.course.name)) {
      const said = sayProblem("cli-problem.page-course-twice", { course: course.value.course.name });
      problems.push(problem("PAGE_COURSE_TWICE", said, { file }, sayProblem("cli-problem.page-course-twice-remedy")));
    } else courses.push(course.value);
    if (course.ok) advice.push(...course.advice);
  }
  return problems.length > 0 ? failure(...problems) : success(courses, advice);
}

/** Where each of some courses was read from. */
export function fileOfCourse(opened: readonly OpenedCourse[]): (course: Curriculum) => string {
  return (course) => opened.find((each) => each.course === course)!.text.file;
}
