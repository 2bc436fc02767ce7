// Reads what vitest and Playwright wrote about their runs: what failed, and the figures of the drills.

// biome-ignore lint/suspicious/noControlCharactersInRegex: colours of a terminal begin with this one.
const colours = /\u001b\[[\d;]*m/g;

/** The first line of an error that says something. */
function firstLine(message) {
  const lines = String(message ?? '')
    .replace(colours, '')
    .split('\n');
  return (lines.find((line) => line.trim() !== '') ?? 'no message').trim().slice(0, 240);
}

/** Every test of a report of vitest; a file that did not load is one, too. */
function vitestTests(report) {
  return report.testResults.flatMap(({ name, status, message, assertionResults }) => {
    const tests = assertionResults.map((one) => ({
      name: one.fullName,
      hasFailed: one.status === 'failed',
      why: firstLine(one.failureMessages[0]),
      figures: one.meta?.figures ?? [],
    }));
    const isBroken = status === 'failed' && !tests.some(({ hasFailed }) => hasFailed);
    if (isBroken) tests.push({ name, hasFailed: true, why: firstLine(message), figures: [] });
    return tests;
  });
}

/** Every test of a report of Playwright; a flaky one counts as failed. */
function playwrightTests(report) {
  const specsOf = (suite) => [...(suite.specs ?? []), ...(suite.suites ?? []).flatMap(specsOf)];
  const tests = report.suites.flatMap(specsOf).flatMap((spec) =>
    spec.tests.map((one) => ({
      name: spec.title,
      hasFailed: one.status === 'unexpected' || one.status === 'flaky',
      why: firstLine(one.results.map(({ error }) => error?.message).find(Boolean)),
      figures: (one.results.at(-1)?.annotations ?? one.annotations)
        .filter(({ type }) => type === 'figure')
        .map(({ description }) => JSON.parse(description)),
    })),
  );
  const broken = (report.errors ?? []).map(({ message }) => firstLine(message));
  return [
    ...tests,
    ...broken.map((why) => ({ name: 'the run', hasFailed: true, why, figures: [] })),
  ];
}

/** Every test that a report tells of. */
export function testsOf(report) {
  if (report.testResults) return vitestTests(report);
  return report.suites ? playwrightTests(report) : [];
}

/** One row of what several tests reached of one drill; `wanted` is how many must have told. */
function rowOf(drill, wanted, parts) {
  const { required } = parts[0] ?? { required: '' };
  const words = parts.map(({ reached }) => reached);
  const told =
    [...new Set(words)]
      .map((word) => [words.filter((other) => other === word).length, word])
      .map(([times, word]) => (times > 1 ? `${times} x ${word}` : word))
      .join('; ') || 'nothing';
  const isWhole = parts.length >= wanted;
  return {
    drill,
    required,
    reached: isWhole ? told : `only ${parts.length} of ${wanted} tests came to their end: ${told}`,
    isMet: isWhole && parts.every(({ isMet }) => isMet),
    // A machine that forbids the measuring says nothing about the app: neither met nor missed.
    ...(isWhole && parts.some(({ isOpen }) => isOpen) ? { isOpen: true } : {}),
  };
}

/** The rows of the table: each drill on the list, run or not, then what is not on it. */
export function rowsOf(listed, figures) {
  const of = (drill) => figures.filter((one) => one.drill === drill);
  const more = new Set(figures.map(({ drill }) => drill).filter((drill) => !(drill in listed)));
  return [
    ...Object.entries(listed).map(([drill, wanted]) => rowOf(drill, wanted, of(drill))),
    ...[...more].map((drill) => ({
      ...rowOf(drill, 1, of(drill)),
      drill: `${drill} (not listed)`,
    })),
  ];
}

/** The table as lines of text. */
export function tableOf(rows) {
  const heads = { drill: 'Drill', required: 'Required', reached: 'Reached' };
  const widthOf = (column) => Math.max(...[heads, ...rows].map((row) => row[column].length));
  const [drill, required] = [widthOf('drill'), widthOf('required')];
  return [heads, ...rows].map((row) => {
    const mark = row === heads ? '    ' : row.isOpen ? 'open' : row.isMet ? 'met ' : 'MISS';
    return `${mark}  ${row.drill.padEnd(drill)}  ${row.required.padEnd(required)}  ${row.reached}`;
  });
}
