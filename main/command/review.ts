import { resolve } from 'node:path';
import type { ReviewPage } from '../contract/index.ts';
import { openToRead, systemClock, type FactReader } from '../records/index.ts';
import { openReviews } from '../services/index.ts';
import type { ReviewFilter } from '../../trees/review/index.ts';
import { text, type Asked, type Command } from './command.ts';
import { trouble, value, wrongUse, type Or, type Outcome } from './outcome.ts';
import { reviewFilterOf } from './review-filter.ts';
import { reviewReport } from './review-report.ts';
import { mustBeThere } from './shop.ts';

/** `review --db FILE`: what the shop's record says, as the page has it. Only reads. */
export const review: Command = {
  usage:
    'review --db FILE [--from YYYY-MM-DD] [--to YYYY-MM-DD] [--tree ID] [--board BOARD] [--technician NAME] [--window DAYS] [--json]',
  says: 'what closed jobs say: fixed the first time, comebacks, where the hours go, whether the trees are right',
  options: {
    db: { type: 'string' },
    from: { type: 'string' },
    to: { type: 'string' },
    tree: { type: 'string' },
    board: { type: 'string' },
    technician: { type: 'string' },
    window: { type: 'string' },
  },
  run: async (asked) => {
    const made = reviewed(asked);
    return made.ok ? made.value : made.outcome;
  },
};

function reviewed(asked: Asked): Or<Outcome> {
  const file = text(asked, 'db');
  if (file === undefined || asked.positionals.length > 0)
    return wrongUse('--db FILE is missing.', `Write: ohmward ${review.usage}`);
  const path = resolve(file);
  const there = mustBeThere(file, path);
  if (!there.ok) return there;
  const opened = openToRead(path);
  if (!opened.ok) return trouble(opened.code, `${file}: ${opened.message}`, opened.help);
  try {
    return readThrough(asked, file, opened.reader);
  } finally {
    opened.reader.close();
  }
}

function readThrough(asked: Asked, file: string, reader: FactReader): Or<Outcome> {
  const filter = reviewFilterOf(asked, reader);
  if (!filter.ok) return filter;
  const page = openReviews(reader).figures(filter.value, systemClock());
  if (page === null) throw new Error('review-stopped: nothing had it stop');
  if (!page.complete) return notComplete(file);
  return value({
    status: 0,
    text: reviewReport(file, filter.value, page),
    json: asJson(filter.value, page),
  });
}

function notComplete(file: string) {
  return trouble(
    'NOT_COMPLETE',
    `${file}: what is kept of closed jobs for the review is not complete yet.`,
    'Leave Ohmward open on these records for some minutes, or make it now with the rebuild command; then ask again.',
  );
}

/** The figures that are asked for most first. */
function asJson(filter: ReviewFilter, { review: figures, names, invented }: ReviewPage) {
  const { jobs, firstTimeFix, comebackFree, byFinding, byMonth, branches, calibration, ...more } = figures;
  return {
    jobs,
    firstTimeFix,
    comebackFree,
    byFinding,
    byMonth,
    branches,
    calibration,
    ...more,
    filter,
    names,
    invented,
  };
}
