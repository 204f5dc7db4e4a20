/** A vitest reporter that closes the run with one line: `N passed, N failed, N skipped`. */
export default class Tally {
  onTestRunEnd(modules, errors) {
    const count = { failed: errors.length, passed: 0, pending: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) count[test.result().state] += 1;
      // A file that cannot be loaded has no tests to fail.
      if (module.state() === "failed" && module.children.size === 0) count.failed += 1;
    }
    // After the default reporter's summary, whatever the order of reporters.
    process.once("exit", () =>
      console.log(`\n${count.passed} passed, ${count.failed} failed, ${count.skipped + count.pending} skipped`),
    );
  }
}
