export { type BackingFound, type BackingNotFound, type BackingPlace, findBacking, placeOf } from "./findBacking.js";
export { type HeardBeside, hearBeside } from "./hearBeside.js";
export { type OpenSound, type Surveyed, surveyBoth } from "./survey.js";
export type { CoveredStretch } from "./undecidable.js";
