// Generated from schemas/ by `npm run types`; change the schema instead.

export { checkCompiled } from "./check-compiled.js";
export type { CompactCourse, CompactDrill, CompactPlayer, CompiledCourse, CompiledFraction } from "./compiled.js";
export { checkCurriculum } from "./check-curriculum.js";
export type { CountInDocument, CurriculumDocument, DrillDocument, DropoutDocument, GateDocument, GoBackDocument, GrowthDocument, InstrumentDocument, LadderDocument, MeterChangeDocument, MixDocument, OpenDocument, PartDocument, PartsGrowthDocument, PatternDocument, PatternFilesDocument, PlayerDocument, PlayerInOctaveDocument, RecordedFileDocument, SequentialDocument, SpanStepsDocument, TempoStepsDocument, ToleranceDocument, VariantDocument } from "./curriculum.js";
export { checkEvent } from "./check-event.js";
export type { Advanced, CleanOfLast, DrillCompleted, DrillOpened, EditionChanged, Enrolled, GateInForce, GoneBack, InARow, JournalEvent, LostRung, Measured, MovedDrill, NotesLeftOut, RenamedDrill, Sequential, SetByTeacher, SilenceKept, TakeAssessed } from "./event.js";
export { checkFinding } from "./check-finding.js";
export type { DropoutFinding, Finding, Landing, LeftOut, Measure, Message, OpenFinding, Phrase, Played, Probability, Reason, Share, Size, Slip, Steadiness, Unmeasured, Verdict } from "./finding.js";
export { checkPlan } from "./check-plan.js";
export type { PlanBackDocument, PlanDocument, PlanGateDocument, PlanGateInRow, PlanGateOfLast, PlanGateSequential, PlanLineDocument, PlanMessage, PlanMostDocument, PlanOutlookDocument, PlanStepDocument, PlayLineDocument, RestLineDocument, ShortRestDocument } from "./plan.js";
export { checkPopulation } from "./check-population.js";
export type { LevelTrait, SkewedTrait, StudentPopulation, TraitsDocument } from "./population.js";
export { checkPublication } from "./check-publication.js";
export type { Publication, PublicationChoices, PublicationMaker, PublishedCourse, PublishedFile } from "./publication.js";
export { checkRehearsal } from "./check-rehearsal.js";
export type { RehearsalArrival, RehearsalClimb, RehearsalComparison, RehearsalDifference, RehearsalDrill, RehearsalFinding, RehearsalKind, RehearsalKindDrill, RehearsalKindName, RehearsalOutcomes, RehearsalQuantiles, RehearsalRate, RehearsalReport, RehearsalResults, RehearsalRung, RehearsalStuck, RehearsalTime, RehearsalWay } from "./rehearsal.js";
export { checkReport } from "./check-report.js";
export type { CourseCount, CourseReport, DriftQuartiles, DrillCount, LandingFigures, LengthDrift, Report, ReportTally, RungCount, Stall, Sticking, StudentPlace, StudentReport, WeekDrift } from "./report.js";
export { checkScore } from "./check-score.js";
export type { Dropout, ExpectedOnset, OpenStretch, RecordedStretch, Score, ScoreBar, ScoreNote, ScorePart, ScoreTempo, ScoreTolerance, Stretch } from "./score.js";
export { checkStanding } from "./check-standing.js";
export type { Completion, Credit, DrillStanding, LatestEvent, RungStanding, Standing, TakenFrom } from "./standing.js";
export { checkTake } from "./check-take.js";
export type { Advice, AdvicePlace, PlayedOnset, Take } from "./take.js";
