export { cancelBacking } from "./echoCancellation.js";
export { type BackingFound, type BackingNotFound, type BackingPlace, findBacking, placeOf } from "./findBacking.js";
export { type HeardBeside, hearBeside, hearCancelled, measureRoom } from "./hearBeside.js";
export type { CoveredStretch } from "./maskedOnsets.js";
export { type OpenSound, type SoundFeatures, survey, surveyBoth } from "./soundFeatures.js";
