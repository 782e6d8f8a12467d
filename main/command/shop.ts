import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { defaultAccuracy, type History } from '../../trees/belief/index.ts';
import { openRecords, type Records } from '../records/index.ts';
import type { Accuracies } from './given.ts';
import { trouble, value, wrongUse, type Or } from './outcome.ts';

/** What a shop's records bring to a calculation: its history of one tree, its instruments' accuracy, its hourly rate. */
export interface Shop {
  readonly history: History | null;
  readonly accuracies: Accuracies;
  /** Null where parts' prices are not to count as minutes. */
  readonly hourlyRate: number | null;
}

const NO_SHOP: Shop = { history: null, accuracies: defaultAccuracy, hourlyRate: null };

/** What a database holds of a shop; without one, no history, the accuracies of ordinary meters and no hourly rate. */
export async function shopOf(file: string | undefined, treeId: string): Promise<Or<Shop>> {
  if (file === undefined) return value(NO_SHOP);
  return withRecords(file, 'must-exist', (records) =>
    value({
      history: records.historyOf(treeId),
      accuracies: accuraciesOf(records),
      hourlyRate: records.settings.value('hourly-rate'),
    }),
  );
}

/** Opens the records for as long as `work` takes. A database that must exist and does not is wrong use. */
export async function withRecords<T>(
  file: string,
  presence: 'must-exist' | 'made-if-absent',
  work: (records: Records) => Or<T> | Promise<Or<T>>,
): Promise<Or<T>> {
  const path = resolve(file);
  const there = presence === 'must-exist' ? mustBeThere(file, path) : value(null);
  if (!there.ok) return there;
  const opened = openRecords({ file: path });
  if (!opened.ok) return trouble(opened.code, `${file}: ${opened.message}`, opened.help);
  try {
    return await work(opened.records);
  } finally {
    await opened.records.close();
  }
}

/** Nothing, or that there is no database, which is wrong use. An empty file would be taken for one yet to be made. */
export function mustBeThere(file: string, path: string): Or<null> {
  if ((statSync(path, { throwIfNoEntry: false })?.size ?? 0) > 0) return value(null);
  return wrongUse(
    `There is no database ${file}.`,
    'Name the file that --db of the app names, or make one with the demo command.',
  );
}

/** A shop's one instrument of a kind is taken to be the one used; with several, or none, the ordinary meter's accuracy. */
function accuraciesOf(records: Records): Accuracies {
  const inUse = records.instruments.list().filter(({ retired }) => !retired);
  return (instrument) => {
    const [one, ...others] = inUse.filter(({ measures }) => measures === instrument);
    if (one === undefined || others.length > 0) return defaultAccuracy(instrument);
    return { percent: one.percent, constant: one.constant };
  };
}
