import { addLibrary, makeDemo } from '../services/index.ts';
import { text, type Asked, type Command } from './command.ts';
import { trouble, value, wrongUse, type Or, type Outcome } from './outcome.ts';
import { openProgress } from './progress.ts';
import { withRecords } from './shop.ts';

const MOST_JOBS = 10_000_000;
const DAY = 86_400_000;

/** `demo`: an invented shop history, drawn from a seed and marked as invented, through the same events as the app. */
export const demo: Command = {
  usage: 'demo --db FILE --jobs N --seed S [--until YYYY-MM-DD] [--json]',
  says: 'makes an invented shop history, marked as such; the same seed and day make the same history',
  options: {
    db: { type: 'string' },
    jobs: { type: 'string' },
    seed: { type: 'string' },
    until: { type: 'string' },
  },
  run: async (asked) => {
    const wanted = wantedOf(asked);
    if (!wanted.ok) return wanted.outcome;
    const made = await withRecords(wanted.value.file, 'made-if-absent', (records) => {
      addLibrary(records);
      const { file, jobs, seed, until } = wanted.value;
      const progress = openProgress(jobs, process.stderr);
      const result = makeDemo({ records, jobs, seed, until, made: progress.made });
      progress.end();
      if (!result.ok) return trouble(result.code, result.message, result.help);
      const text = `${file}: ${result.jobs} invented jobs, ${result.events} events, ${result.open} of them open.`;
      const json = {
        file,
        invented: true,
        jobs: result.jobs,
        events: result.events,
        open: result.open,
        seed,
      };
      return value<Outcome>({ status: 0, text, json });
    });
    return made.ok ? made.value : made.outcome;
  },
};

interface Wanted {
  readonly file: string;
  readonly jobs: number;
  readonly seed: number;
  readonly until: number;
}

function wantedOf(asked: Asked): Or<Wanted> {
  const file = text(asked, 'db');
  if (file === undefined || asked.positionals.length > 0)
    return wrongUse('--db FILE is missing.', `Write: ohmward ${demo.usage}`);
  const jobs = wholeNumber(asked, 'jobs', 1, MOST_JOBS);
  if (!jobs.ok) return jobs;
  const seed = wholeNumber(asked, 'seed', 0, 2 ** 32 - 1);
  if (!seed.ok) return seed;
  const until = dayOf(text(asked, 'until'));
  return until.ok ? value({ file, jobs: jobs.value, seed: seed.value, until: until.value }) : until;
}

function wholeNumber(asked: Asked, name: string, least: number, most: number): Or<number> {
  const given = text(asked, name) ?? '';
  const number = Number(given);
  if (/^\d+$/.test(given) && number >= least && number <= most) return value(number);
  const said = given === '' ? 'it is missing' : `${given} is not one`;
  return wrongUse(
    `--${name} takes a whole number from ${least} to ${most}; ${said}.`,
    `Write: ohmward ${demo.usage}`,
  );
}

/** The end of the invented history: the day named, else today's beginning, UTC, so that a day's demos are the same. */
function dayOf(given: string | undefined): Or<number> {
  if (given === undefined) return value(Math.floor(Date.now() / DAY) * DAY);
  const day = /^\d{4}-\d{2}-\d{2}$/.test(given) ? Date.parse(`${given}T00:00:00Z`) : NaN;
  const isDay = Number.isFinite(day) && new Date(day).toISOString().startsWith(given);
  return isDay ? value(day) : wrongUse(`--until ${given} is not a day.`, 'Write it as YYYY-MM-DD.');
}
