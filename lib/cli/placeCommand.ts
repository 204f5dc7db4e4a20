import { type Command, Option } from "commander";
import { milliseconds, wholeNumber } from "./numbers.js";
import type { Outcome, Setting } from "./outcome.js";
import { type PlaceOptions, place } from "./place.js";
import { storeOption } from "./storeCommands.js";

/** Adds `place` to the program; `act` is given what to do once the words are read. */
export function placeCommand(
  command: (name: string, description: string) => Command,
  act: (run: (setting: Setting) => Outcome | Promise<Outcome>) => void,
): void {
  storeOption(command("place", "find where a new student begins in a drill, in a few takes"))
    .argument("<STUDENT>")
    .argument("[TAKE]", "a take of the rung asked for; says what to play when left out")
    .option("--drill <D>", "the drill; the one that is open when left out")
    .option("--teacher <NAME>", "who lets the student begin there")
    .option("--course <FILE|NAME>", "the course; the student's, as kept in the store, when left out")
    .option("--at <TIME>", "the time of the take (RFC 3339); now when left out")
    .addOption(new Option("--zero <Z>", "what time 0 of the take is").choices(["count-in", "bar-1"]))
    .option("--latency-ms <MS>", "known delay of the recording", milliseconds)
    .option("--track <N>", "MIDI: only this track, from 1", wholeNumber(1))
    .option("--channel <N>", "MIDI: only this channel, 1 to 16", wholeNumber(1, 16))
    .action((student: string, take: string | undefined, options: PlaceOptions) => {
      act((setting) => place(setting, { student, take }, options));
    });
}
