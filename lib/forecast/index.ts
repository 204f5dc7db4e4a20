export { type Belief, believe, learn } from "./belief.js";
export type { Chances } from "./chances.js";
export { chancesOf } from "./chances.js";
export { type Demand, demandOf, type SilenceAsked } from "./demand.js";
export { type Forecast, forecast } from "./forecast.js";
export {
  believeHistory,
  type Demands,
  demandsIn,
  drillCalled,
  type History,
  historyOf,
  type Played,
  rungCalled,
} from "./history.js";
export { practised } from "./learning.js";
export { type Evidence, evidenceOf } from "./likelihood.js";
export { traitsAt } from "./particles.js";
export { populationOf } from "./prior.js";
export { meanShift, moved } from "./shift.js";
export { TARGET } from "./target.js";
export type { Traits } from "./traits.js";
export { ANYBODY, type Population, type Spread, type Trait } from "./traits.js";
