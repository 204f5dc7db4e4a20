import type { Command } from "commander";
import type { Outcome, Setting } from "./outcome.js";
import { type PlaceOptions, place } from "./place.js";
import { storeOption } from "./storeCommands.js";
import { takeOptions } from "./takeOptions.js";

/** Adds `place` to the program; `act` is given what to do once the words are read. */
export function placeCommand(
  command: (name: string, description: string) => Command,
  act: (run: (setting: Setting) => Outcome | Promise<Outcome>) => void,
): void {
  takeOptions(storeOption(command("place", "find where a new student begins in a drill, in a few takes")))
    .argument("<STUDENT>")
    .argument("[TAKE]", "a take of the rung asked for; says what to play when left out")
    .option("--drill <D>", "the drill; the one that is open when left out")
    .option("--teacher <NAME>", "who lets the student begin there; when left out, the journal says that the test did")
    .option("--course <FILE|NAME>", "the course; the student's, as kept in the store, when left out")
    .option("--at <TIME>", "the time of the take (RFC 3339); now when left out")
    .action((student: string, take: string | undefined, options: PlaceOptions) => {
      act((setting) => place(setting, { student, take }, options));
    });
}
