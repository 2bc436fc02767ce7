// npm test: installs what is missing, runs every check, counts, and ends with `N passed, N failed`.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { rowsOf, tableOf, testsOf } from './reports.mjs';
import { findChromium, goHome, installPackages, installPrograms, run } from './tools.mjs';

goHome();
installPackages();
installPrograms();
const chromium = findChromium();
const out = 'tests/out';
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });

const counts = [];
/** Every test that a suite wrote about. */
const tests = [];
const note = (suite, passed, failed) => counts.push({ suite, passed, failed });

/** What a suite wrote about itself; null if it wrote nothing that can be read. */
function reportOf(file) {
  try {
    const report = JSON.parse(readFileSync(file, 'utf8'));
    tests.push(...testsOf(report));
    return report;
  } catch {
    return null;
  }
}

/** A check that passes or fails as a whole. */
function whole(suite, ...commands) {
  console.log(`\n== ${suite}`);
  const failed = commands.some(([command, ...args]) => run(command, args) !== 0);
  note(suite, failed ? 0 : 1, failed ? 1 : 0);
  return !failed;
}

/** A vitest project; a run that crashed or found no test counts as failed. */
function vitest(suite, project, env = {}, files = []) {
  console.log(`\n== ${suite}`);
  const file = `${out}/${suite.replaceAll(' ', '-')}.json`;
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const code = run('npx', ['vitest', 'run', '--project', project, ...reporters, ...files], env);
  const report = reportOf(file);
  const passed = report?.numPassedTests ?? 0;
  const failed = report?.numFailedTests ?? 0;
  note(suite, passed, failed + (failed === 0 && (code !== 0 || passed === 0) ? 1 : 0));
}

/** The built app under Playwright. */
function playwright(suite) {
  console.log(`\n== ${suite}`);
  const file = `${out}/e2e.json`;
  const code = run('npx', ['playwright', 'test', '-c', 'tests/e2e'], {
    CHROMIUM: chromium,
    PLAYWRIGHT_JSON_OUTPUT_FILE: `${process.cwd()}/${file}`,
  });
  const stats = reportOf(file)?.stats;
  const passed = stats?.expected ?? 0;
  // A flaky test is a failed one.
  const failed = (stats?.unexpected ?? 0) + (stats?.flaky ?? 0);
  note(suite, passed, failed + (failed === 0 && (code !== 0 || passed === 0) ? 1 : 0));
}

whole('format and lint', ['npm', 'run', '--silent', 'lint']);
whole('types', ['npx', 'tsc', '-p', '.'], ['npx', 'tsc', '-p', 'src/calc']);
vitest('unit', 'node');
vitest('days in Berlin', 'node', { TZ: 'Europe/Berlin' }, ['tests/calc/days.test.ts']);
if (chromium) vitest('real browser', 'chromium', { CHROMIUM: chromium });
else note('real browser', 0, 1);
const isBuilt = whole('build and size', ['npm', 'run', '--silent', 'build']);
if (chromium && isBuilt) playwright('built app');
else note('built app', 0, 1);

const drills = JSON.parse(readFileSync('.ci/drills.json', 'utf8'));
const rows = rowsOf(
  drills,
  tests.flatMap(({ figures }) => figures),
);
const met = rows.filter(({ isMet, isOpen }) => isMet && !isOpen).length;
const open = rows.filter(({ isOpen }) => isOpen).length;
note('figures', met, rows.length - met - open);

console.log(`\n${tableOf(rows).join('\n')}\n`);
// After the table: where only the end of a run is kept, this is what it is kept for.
const broken = tests.filter(({ hasFailed }) => hasFailed);
if (broken.length > 0) console.log('Failed:');
for (const { name, why } of broken) console.log(`- ${name}\n    ${why}\n`);
for (const { suite, passed, failed } of counts) {
  console.log(
    `${suite.padEnd(18)} ${String(passed).padStart(5)} passed ${String(failed).padStart(4)} failed`,
  );
}
const passed = counts.reduce((sum, count) => sum + count.passed, 0);
const failed = counts.reduce((sum, count) => sum + count.failed, 0);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
