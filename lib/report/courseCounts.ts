import type { Curriculum } from "../curriculum/index.js";
import type { CourseCount, CourseReport, DrillCount, RungCount } from "../schema/index.js";

/** Counts of students by course, drill and rung, while reports are added. */
export interface CourseCounting {
  add(report: CourseReport, course: Curriculum | undefined): void;
  close(): readonly CourseCount[];
}

interface RungTally {
  readonly rung: string;
  number: number | undefined;
  students: number;
  stuck: number;
}

interface DrillTally {
  title: string | undefined;
  rungs: number | undefined;
  complete: number;
  readonly places: Map<string, RungTally>;
}

interface CourseTally {
  /** The course by which drills are put in order: the one of the highest edition text, so that the order of reports has no effect. */
  course: Curriculum | undefined;
  students: number;
  stuck: number;
  quiet: number;
  readonly takes: { within: number; beyond: number; unclear: number };
  readonly drills: Map<string, DrillTally>;
}

/** Begins to count. No reports: no courses. */
export function openCourses(): CourseCounting {
  const courses = new Map<string, CourseTally>();
  return {
    add(report, course) {
      const tally = courses.get(report.curriculum) ?? openCourse();
      courses.set(report.curriculum, tally);
      if (course !== undefined && (tally.course === undefined || course.edition > tally.course.edition))
        tally.course = course;
      tally.students++;
      if (report.quiet) tally.quiet++;
      if (report.places.some(({ stall }) => stall !== undefined)) tally.stuck++;
      for (const verdict of ["within", "beyond", "unclear"] as const) tally.takes[verdict] += report.takes[verdict];
      for (const drill of report.complete) drillIn(tally, drill).complete++;
      for (const place of report.places) {
        const drill = drillIn(tally, place.drill);
        const rung = drill.places.get(place.rung) ?? { rung: place.rung, number: undefined, students: 0, stuck: 0 };
        drill.places.set(place.rung, rung);
        rung.students++;
        if (place.stall !== undefined) rung.stuck++;
        // Students may be in different editions: the greatest number is kept, so that the order of reports has no effect.
        if (place.number !== undefined) rung.number = Math.max(rung.number ?? 0, place.number);
        if (place.rungs !== undefined) drill.rungs = Math.max(drill.rungs ?? 0, place.rungs);
        if (place.title !== undefined && (drill.title === undefined || place.title > drill.title))
          drill.title = place.title;
      }
    },
    close: () => [...courses].sort(([a], [b]) => byText(a, b)).map(([name, tally]) => courseCount(name, tally)),
  };
}

function openCourse(): CourseTally {
  const takes = { within: 0, beyond: 0, unclear: 0 };
  return { course: undefined, students: 0, stuck: 0, quiet: 0, takes, drills: new Map() };
}

function drillIn({ drills }: CourseTally, name: string): DrillTally {
  const known = drills.get(name) ?? { title: undefined, rungs: undefined, complete: 0, places: new Map() };
  drills.set(name, known);
  return known;
}

function courseCount(curriculum: string, { course, students, stuck, quiet, takes, drills }: CourseTally): CourseCount {
  const order = new Map(course?.drills.map(({ name }, i) => [name, i]));
  const placeOf = (name: string): number => order.get(name) ?? order.size;
  const inOrder = [...drills].sort(([a], [b]) => placeOf(a) - placeOf(b) || byText(a, b));
  return {
    curriculum,
    ...(course === undefined ? {} : { title: course.title }),
    students,
    stuck,
    quiet,
    takes,
    drills: inOrder.map(([drill, tally]) => drillCount(drill, tally, course)),
  };
}

function drillCount(name: string, tally: DrillTally, course: Curriculum | undefined): DrillCount {
  const drill = course?.drills.find((each) => each.name === name);
  const title = tally.title ?? drill?.title;
  return {
    drill: name,
    ...(title === undefined ? {} : { title }),
    ...(tally.rungs === undefined ? {} : { rungs: tally.rungs }),
    complete: tally.complete,
    places: [...tally.places.values()].sort(byNumber).map(rungCount),
  };
}

function rungCount({ rung, number, students, stuck }: RungTally): RungCount {
  return { rung, ...(number === undefined ? {} : { number }), students, stuck };
}

function byNumber(a: RungTally, b: RungTally): number {
  return (a.number ?? Number.POSITIVE_INFINITY) === (b.number ?? Number.POSITIVE_INFINITY)
    ? byText(a.rung, b.rung)
    : (a.number ?? Number.POSITIVE_INFINITY) - (b.number ?? Number.POSITIVE_INFINITY);
}

function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
