import type { Goal, Plan } from '../../trees/plan/index.ts';
import { hourlyRateSchema } from '../contract/index.ts';
import { text, type Asked } from './command.ts';
import { value, wrongUse, type Or } from './outcome.ts';

/** Seconds that an exact search may take where nothing else is asked for. */
const SECONDS = 60;
/** A day: longer than any bench waits. */
const MOST_SECONDS = 86_400;

/** What a plan is asked for with `--goal`; `otherwise` where it is not written and need not be. */
export function goalOf(asked: Asked, otherwise?: Goal): Or<Goal> {
  const written = text(asked, 'goal');
  const help = 'Write --goal isolate to know the finding, or --goal fix to have the unit mended.';
  if (written === 'isolate' || written === 'fix') return value(written);
  if (written !== undefined) return wrongUse(`There is no goal "${written}".`, help);
  return otherwise === undefined ? wrongUse('--goal is missing.', help) : value(otherwise);
}

/** `--method`; exact where it is not written. */
export function methodOf(asked: Asked): Or<Plan['method']> {
  const written = text(asked, 'method') ?? 'exact';
  if (written === 'exact' || written === 'fast') return value(written);
  return wrongUse(`There is no method "${written}".`, 'Write --method exact or --method fast.');
}

/** `--seconds`: how long an exact search may go on, from 0 to a day. */
export function secondsOf(asked: Asked): Or<number> {
  const written = text(asked, 'seconds');
  const seconds = written === undefined ? SECONDS : plainNumber(written);
  if (seconds >= 0 && seconds <= MOST_SECONDS) return value(seconds);
  return wrongUse(
    `--seconds ${written} is not a number of seconds from 0 to ${MOST_SECONDS}.`,
    'Write a plain number, such as --seconds 10.',
  );
}

/** `--rate`: what an hour of work costs, in the currency of the parts' prices; undefined where it is not written. */
export function rateOf(asked: Asked): Or<number | undefined> {
  const written = text(asked, 'rate');
  if (written === undefined) return value(undefined);
  const read = hourlyRateSchema.unwrap().safeParse(plainNumber(written));
  if (read.success) return value(read.data);
  return wrongUse(
    `--rate ${written} is not an hourly rate. ${read.error.issues.map(({ message }) => message).join(' ')}`,
    'Write what an hour of work costs in the currency of the parts’ prices, such as --rate 45, or leave it out.',
  );
}

/** The number that digits with a point stand for; NaN for anything else, `1e3`, `0x10` and `1,200` among it. */
function plainNumber(written: string): number {
  return /^-?\d{1,15}(\.\d{1,15})?$/.test(written) ? Number(written) : Number.NaN;
}
