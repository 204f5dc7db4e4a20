export { musicXmlOf } from "./musicXml.js";
export type { Bracket, OpenBars, Page, PageBar, PageStaff, Reader } from "./page.js";
export { type RiffPageOptions, riffPage } from "./riffPage.js";
export { scalePitches, scaleWords } from "./staffMarks.js";
export { type StaffTransposition, staffTranspositionOf } from "./staffTransposition.js";
export { type TakePageOptions, takePage } from "./takePage.js";
