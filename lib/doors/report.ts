/** The door of reports: who is where, who is stuck and on what, and drift over weeks. */
export {
  type JournalOptions,
  type OpenReport,
  openReport,
  QUIET_DAYS,
  type ReportedJournal,
  type ReportTable,
  reportCsv,
  stuckAfter,
} from "../report/index.js";
