export { type BackingFound, type BackingNotFound, type BackingPlace, findBacking, placeOf } from "./findBacking.js";
export { type HeardBeside, hearBeside } from "./hearBeside.js";
export type { CoveredStretch } from "./maskedOnsets.js";
export { type OpenSound, type SoundFeatures, surveyBoth } from "./soundFeatures.js";
