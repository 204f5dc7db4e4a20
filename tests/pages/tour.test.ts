import { pageExamples } from "./pageExamples.js";

pageExamples("lib/cli/TOUR.md");
