// Generated from the table of operations by `npm run types`; change lib/server/operations instead.
import type { Validator } from "../../schema/index.js";

export declare const classReport: Validator;
export declare const erase: Validator;
export declare const none: Validator;
export declare const plan: Validator;
export declare const students: Validator;
export declare const submit: Validator;
