import { relative } from 'node:path';
import { z } from 'zod';

/** A test that failed: where it is, and what it said. */
export interface Failure {
  readonly where: string;
  readonly says: string;
}

const vitestReport = z.object({
  testResults: z.array(
    z.object({
      name: z.string(),
      status: z.string(),
      message: z.string(),
      assertionResults: z.array(
        z.object({ status: z.string(), fullName: z.string(), failureMessages: z.array(z.string()) }),
      ),
    }),
  ),
});

/** The tests that failed by Vitest's JSON report, and the files that failed with none that did: those did not load. */
export function vitestFailures(report: unknown, top: string): Failure[] {
  return vitestReport.parse(report).testResults.flatMap(({ name, status, message, assertionResults }) => {
    const file = relative(top, name);
    const failed = assertionResults.filter((one) => one.status === 'failed');
    if (failed.length === 0) return status === 'failed' ? [{ where: file, says: message }] : [];
    return failed.map((one) => ({
      where: `${file} › ${one.fullName}`,
      says: one.failureMessages.join('\n'),
    }));
  });
}

const spec = z.object({
  title: z.string(),
  file: z.string(),
  tests: z.array(
    z.object({
      status: z.string(),
      results: z.array(z.object({ errors: z.array(z.object({ message: z.string().optional() })) })),
    }),
  ),
});
const suite = z.object({
  specs: z.array(spec),
  get suites() {
    return z.array(suite).optional();
  },
});
const playwrightReport = z.object({
  suites: z.array(suite),
  errors: z.array(z.object({ message: z.string().optional() })),
});

/** The tests that Playwright's JSON report has as anything but passed, and what went wrong outside any test. */
export function playwrightFailures(report: unknown): Failure[] {
  const { suites, errors } = playwrightReport.parse(report);
  const outside = errors.map(({ message }) => ({ where: 'outside any test', says: message ?? '' }));
  return [...outside, ...suites.flatMap(failuresIn)];
}

function failuresIn({ specs, suites }: z.infer<typeof suite>): Failure[] {
  const here = specs.flatMap(({ title, file, tests }) =>
    tests
      .filter(({ status }) => status !== 'expected')
      .map(({ status, results }) => {
        const messages = results.flatMap(({ errors }) => errors.map(({ message }) => message ?? ''));
        return { where: `${file} › ${title}`, says: messages.length === 0 ? status : messages.join('\n') };
      }),
  );
  return [...here, ...(suites ?? []).flatMap(failuresIn)];
}

const LINES = 12;
const COLUMNS = 400;

/** A failure in a few lines of bounded length, without the colours of a terminal or the calls it went through. */
export function inShort({ where, says }: Failure): string {
  const lines = says
    // eslint-disable-next-line no-control-regex -- what begins a terminal's colour is a control character.
    .replace(/\u001b\[[0-9;]*m/g, '')
    .split('\n')
    .filter((line) => line.trim() !== '' && !/^\s+at /.test(line))
    .map((line) => (line.length > COLUMNS ? `${line.slice(0, COLUMNS)} …` : line));
  const more = lines.length > LINES ? [`… ${String(lines.length - LINES)} more lines`] : [];
  return [where, ...[...lines.slice(0, LINES), ...more].map((line) => `    ${line}`)].join('\n');
}
