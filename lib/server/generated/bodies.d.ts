// Generated from the table of operations by `npm run types`; change lib/server/operations instead.
import type { Validator } from "../../schema/index.js";

export declare const ClassWish: Validator;
export declare const InvitationAnswer: Validator;
export declare const InvitationSecret: Validator;
export declare const InvitationWish: Validator;
export declare const Pause: Validator;
export declare const PlacementWish: Validator;
export declare const RungWish: Validator;
export declare const Take: Validator;
