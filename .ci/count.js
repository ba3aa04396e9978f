// node count.js FAILED_STEPS REPORT… : what failed, if only once, and why, then one line with what the test runner
// counted; a failed step counts as one failure.
import { readFileSync } from "node:fs"

const [failedSteps, ...files] = process.argv.slice(2)
const reports = files.map((file) => JSON.parse(readFileSync(file, "utf8")))
const sum = (key) => reports.reduce((total, report) => total + report[key], 0)

// said again at the end, where somebody who has only the end of a long log finds it; what passed when tried again, too
for (const { name, message, assertionResults } of reports.flatMap((report) => report.testResults)) {
  if (message) console.log(`\n!! ${name}\n${message}`)
  for (const { fullName, status, failureMessages } of assertionResults.filter(
    (test) => test.failureMessages.length > 0,
  )) {
    console.log(`\n!! ${name}: ${fullName}, in the end ${status}\n${failureMessages.join("\n")}`)
  }
}

const failed = Math.max(sum("numFailedTests"), Number(failedSteps))
console.log(`\n${sum("numPassedTests")} passed, ${failed} failed`)
process.exit(failed > 0 ? 1 : 0)
