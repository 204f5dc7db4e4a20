import type { Answer, Call } from "../model.js";
import type { OperationId } from "../operations/operationId.js";
import type { Result } from "../problem.js";

/** What answers an operation. */
export type Handler = (call: Call) => Promise<Result<Answer>>;

/** What answers these operations, each. */
export type Handlers<Id extends OperationId> = Readonly<Record<Id, Handler>>;
