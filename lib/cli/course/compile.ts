import { compileCourse } from "../../curriculum/index.js";
import type { Act, AddCommand } from "../command.js";
import { openCourse } from "../input/courseFile.js";
import { DONE, type Outcome, PROBLEMS, refuse, type Setting, tellProblems } from "../outcome.js";
import { writeOut } from "../output/outFile.js";

export interface CompileOptions {
  readonly out?: string;
}

/** Adds `compile` to the program. */
export function compileCommand(command: AddCommand, act: Act): void {
  command("compile", "a course as JSON that applications open without YAML")
    .argument("<FILE>")
    .option("--out <FILE>", "the file to write; standard output when left out")
    .action((file: string, options: CompileOptions) => act((setting) => compile(setting, file, options)));
}

/** `leeway compile FILE`: the course compiled ahead; its advice is told beside it. */
function compile(setting: Setting, file: string, { out }: CompileOptions): Outcome {
  const course = openCourse(file, setting.sources);
  if (!course.ok) return refuse(setting, course.problems);
  tellProblems(setting, course.advice);
  const text = compileCourse(course.value);
  if (out === undefined) {
    setting.terminal.print(text);
    return DONE;
  }
  const problems = writeOut(out, [text], true);
  tellProblems(setting, problems);
  return problems.length === 0 ? DONE : PROBLEMS;
}
