import { pageExamples } from "./pageExamples.js";

pageExamples("DEVELOPERS.md");
