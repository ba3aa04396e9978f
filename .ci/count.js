// node count.js FAILED_STEPS REPORT… : one line with what the test runner counted; a failed step counts as one failure.
import { readFileSync } from "node:fs"

const [failedSteps, ...files] = process.argv.slice(2)
const reports = files.map((file) => JSON.parse(readFileSync(file, "utf8")))
const sum = (key) => reports.reduce((total, report) => total + report[key], 0)

const failed = Math.max(sum("numFailedTests"), Number(failedSteps))
console.log(`\n${sum("numPassedTests")} passed, ${failed} failed`)
process.exit(failed > 0 ? 1 : 0)
