import type { Command } from "commander";
import type { Outcome, Setting } from "./outcome.js";

/** Adds a command of this name to the program. */
export type AddCommand = (name: string, description: string) => Command;

/** Takes what a command does, once its words are read. */
export type Act = (run: (setting: Setting) => Promise<Outcome> | Outcome) => void;
