import { pageExamples } from "./pageExamples.js";

pageExamples("curricula/README.md");
