export {
  type BackingFound,
  type BackingNotFound,
  type BackingPlace,
  findBacking,
  type OpenSound,
} from "./findBacking.js";
export { firstSoundOf } from "./firstSound.js";
export { type HeardBeside, hearBeside } from "./hearBeside.js";
export type { CoveredStretch } from "./undecidable.js";
