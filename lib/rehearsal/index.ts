export type { Habits } from "./habits.js";
export type { PlayedTake, PlayedTruth, Player } from "./player.js";
export { PLAYERS, playTake } from "./player.js";
