import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { findOrInstallBrowser } from './support/browser.ts';
import { electronRuntime } from './support/electron-runtime.ts';
import { inShort, playwrightFailures, vitestFailures, type Failure } from './support/failures.ts';

const top = fileURLToPath(new URL('..', import.meta.url));
const output = `${top}tests/output`;

/** What a stage found out: how many of its tests passed and failed, which those were, and what it says of itself. */
interface Tally {
  readonly passed: number;
  readonly failed: number;
  readonly failures?: readonly Failure[];
  readonly says?: string;
}

interface Stage {
  readonly name: string;
  readonly title: string;
  run(): Promise<Tally>;
}

const STAGES: readonly Stage[] = [
  tool('lint', 'Lint, with the rooms’ dependency rule', [
    'eslint',
    '-c',
    'tests/support/eslint.config.js',
    '--max-warnings',
    '0',
    '.',
  ]),
  tool('format', 'Formatting', ['prettier', '--check', '--log-level', 'warn', '.']),
  types(),
  tool('svelte', 'Svelte check', [
    'svelte-check',
    '--tsconfig',
    'app/tsconfig.json',
    '--fail-on-warnings',
    '--output',
    'human',
  ]),
  tool('build', 'Build of all three targets', [
    'electron-vite',
    'build',
    '-c',
    'electron.config.ts',
    '--logLevel',
    'warn',
  ]),
  { name: 'unit', title: 'Unit, property, published, records and host tests (Vitest)', run: runVitest },
  {
    name: 'e2e',
    title: 'End to end in a real browser, through the loopback host (Playwright)',
    run: runPlaywright,
  },
  { name: 'electron', title: 'Desktop host in Electron itself (Playwright)', run: runElectron },
];

function tool(name: string, title: string, command: readonly string[]): Stage {
  return { name, title, run: async () => verdict(await run(command)) };
}

function types(): Stage {
  const rooms = ['trees', 'main', 'tests'];
  return {
    name: 'types',
    title: 'Type check, a tsconfig a room',
    run: async () => {
      const codes = [];
      for (const room of rooms) codes.push(await run(['tsc', '-p', `${room}/tsconfig.json`]));
      return {
        passed: codes.filter((code) => code === 0).length,
        failed: codes.filter((code) => code !== 0).length,
      };
    },
  };
}

async function runVitest(): Promise<Tally> {
  const browser = await findOrInstallBrowser();
  if (browser.kind === 'none') return { passed: 0, failed: 1, says: browser.help };
  const report = `${output}/vitest.json`;
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const code = await run(
    ['vitest', 'run', '--config', 'tests/vitest.config.ts', ...reporters],
    named(browser),
  );
  const told = JSON.parse(readFileSync(report, 'utf8'));
  const { numPassedTests: passed, numFailedTests: failed } = told;
  return {
    passed,
    failed: code !== 0 && failed === 0 ? 1 : failed,
    failures: vitestFailures(told, top),
  };
}

async function runPlaywright(): Promise<Tally> {
  const browser = await findOrInstallBrowser();
  if (browser.kind === 'none') return { passed: 0, failed: 1, says: browser.help };
  return playwright('browser', named(browser));
}

async function runElectron(): Promise<Tally> {
  const runtime = electronRuntime();
  if (runtime.kind === 'absent') return { passed: 0, failed: 0, says: `NOT RUN: ${runtime.because}` };
  return playwright('electron', {});
}

async function playwright(project: string, env: Record<string, string>): Promise<Tally> {
  const report = `${output}/playwright-${project}.json`;
  const code = await run(
    ['playwright', 'test', '-c', 'tests/playwright.config.ts', '--project', project, '--reporter=list,json'],
    { ...env, PLAYWRIGHT_JSON_OUTPUT_FILE: report },
  );
  const told = JSON.parse(readFileSync(report, 'utf8'));
  const { stats } = told;
  const failed = stats.unexpected + stats.flaky + stats.skipped;
  return {
    passed: stats.expected,
    failed: code !== 0 && failed === 0 ? 1 : failed,
    failures: playwrightFailures(told),
  };
}

/** How the tests are told of the browser: by its path, or by nothing where it is Playwright's own. */
function named(browser: { readonly executablePath?: string }): Record<string, string> {
  return browser.executablePath === undefined ? {} : { OHMWARD_TEST_BROWSER: browser.executablePath };
}

function run(command: readonly string[], env: Record<string, string> = {}): Promise<number> {
  const [name = '', ...args] = command;
  return new Promise((done, fail) => {
    const child = spawn(
      `${top}node_modules/.bin/${name}${process.platform === 'win32' ? '.cmd' : ''}`,
      args,
      {
        cwd: top,
        stdio: 'inherit',
        shell: process.platform === 'win32',
        env: { ...process.env, ...env },
      },
    );
    child.on('error', fail);
    child.on('exit', (code) => done(code ?? 1));
  });
}

function freshSeed(): string {
  return String(Math.floor(Math.random() * 1e9));
}

function verdict(code: number): Tally {
  return code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { only: { type: 'string' }, seed: { type: 'string' } } });
  const wanted = values.only?.split(',');
  const unknown = wanted?.filter((name) => !STAGES.some((stage) => stage.name === name)) ?? [];
  if (unknown.length > 0) {
    console.error(
      `No such stage: ${unknown.join(', ')}. There are: ${STAGES.map((stage) => stage.name).join(', ')}.`,
    );
    process.exitCode = 2;
    return;
  }
  const seed = values.seed === 'fresh' ? freshSeed() : values.seed;
  if (seed !== undefined && !/^-?\d{1,9}$/.test(seed)) {
    console.error(`--seed takes a whole number of at most nine digits, or “fresh”; it was given “${seed}”.`);
    process.exitCode = 2;
    return;
  }
  if (seed !== undefined) {
    console.log(`Properties draw from the seed ${seed}: --seed ${seed} draws the same again.`);
    process.env['OHMWARD_TEST_SEED'] = seed;
  }
  rmSync(output, { recursive: true, force: true });
  mkdirSync(output, { recursive: true });
  const rows: { stage: Stage; tally: Tally; seconds: number }[] = [];
  for (const stage of STAGES.filter(({ name }) => wanted?.includes(name) ?? true)) {
    console.log(`\n== ${stage.title}`);
    const from = performance.now();
    const tally = await stage.run();
    rows.push({ stage, tally, seconds: (performance.now() - from) / 1000 });
  }
  const failures = rows.flatMap(({ tally }) => tally.failures ?? []);
  if (failures.length > 0) console.log(`\n== Failed\n${failures.map(inShort).join('\n')}`);
  console.log('\n== Summary');
  for (const { stage, tally, seconds } of rows) {
    const figures = tally.says ?? `${tally.passed} passed, ${tally.failed} failed`;
    console.log(
      `${tally.failed > 0 ? 'FAILED' : 'ok    '} ${stage.name.padEnd(9)} ${figures} (${seconds.toFixed(1)} s)`,
    );
  }
  const total = (key: 'passed' | 'failed') => rows.reduce((sum, { tally }) => sum + tally[key], 0);
  console.log(`${total('passed')} passed, ${total('failed')} failed`);
  process.exitCode = total('failed') > 0 || total('passed') === 0 ? 1 : 0;
}

await main();
