import { type Command, InvalidArgumentError, Option } from "commander";
import type { Outcome, Setting } from "./outcome.js";
import { render } from "./render.js";
import { FORMATS, type Format, PAPERS, type RenderOptions } from "./renderPlan.js";

/** Adds `render` to the program; `act` is given what to do once the words are read. */
export function renderCommand(
  command: (name: string, description: string) => Command,
  act: (run: (setting: Setting) => Promise<Outcome>) => void,
): void {
  command("render", "files to hear and to read: of a rung, of a drill, or of a whole course")
    .argument("<FILE>")
    .argument("[DRILL]", "all drills when left out")
    .argument("[RUNG]", "all rungs when left out")
    .requiredOption("--out <DIR>", "the folder for the files; made when it is not there")
    .addOption(
      new Option("--as <FORMATS>", `with commas between: ${FORMATS.join(", ")}`)
        .argParser(formatsIn)
        .default(["midi"], "midi"),
    )
    .option("--mix <M...>", "these mixes; all when left out")
    .option("--for <INSTRUMENT...>", "who reads the student's part; the drill's players when left out")
    .option("--rungs <FROM-TO>", "a range of rungs, such as 0-9")
    .option("--bank <FILE>", "sound: instrument samples (SF2, SF3); built-in voices when left out")
    .addOption(new Option("--paper <SIZE>", "sheets: paper size").choices([...PAPERS]).default("a4"))
    .action((file: string, drill: string | undefined, rung: string | undefined, options: RenderOptions) => {
      act((setting) => render(setting, [file, drill, rung], options));
    });
}

function formatsIn(text: string): readonly Format[] {
  const names = text.split(",").map((name) => name.trim());
  const unknown = names.find((name) => !(FORMATS as readonly string[]).includes(name));
  if (unknown !== undefined) throw new InvalidArgumentError(`Formats are ${FORMATS.join(", ")}.`);
  return FORMATS.filter((format) => names.includes(format));
}
