export type { FindFile, ServedFile } from "./answer/answerFile.js";
export { serverCodes } from "./codes.js";
export { type Forgotten, forgetUnseen } from "./forgetUnseen.js";
export type { Limits, School } from "./model.js";
export { schoolDocument } from "./openapi/schoolDocument.js";
export { inviteFirstTeacher, openSchool, type SchoolOptions } from "./openSchool.js";
export type { ServerCode } from "./problem.js";
export { type ServedSchool, type ServeOptions, serveSchool } from "./serveSchool.js";
export type { Seen } from "./watch/watch.js";
