export type { PlayedTake, PlayedTruth, Player } from "./player.js";
export { PLAYERS, playTake } from "./player.js";
