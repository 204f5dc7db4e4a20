// Generated from schemas/ by `npm run types`; change the schema instead.
import type { Validator } from "../checked.js";
export declare const validate: Validator;
