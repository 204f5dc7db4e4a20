export { type ReportTable, reportCsv } from "./csv.js";
export { type OpenReport, openReport } from "./openReport.js";
export {
  eventsBy,
  type JournalOptions,
  QUIET_DAYS,
  type ReportedJournal,
  type SummarisedJournal,
} from "./reportJournal.js";
export { stuckAfter } from "./stallThreshold.js";
export { stickingWords } from "./stickingWords.js";
export { driftWords, landingWords, placeWords, tallyWords } from "./wording.js";
export { ENGLISH, type ReportWords } from "./words.js";
