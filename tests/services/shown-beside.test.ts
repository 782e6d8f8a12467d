import Sqlite from 'better-sqlite3';
import { expect, it, onTestFinished } from 'vitest';
import { beliefOf, compileFaultModel, evidenceOf } from '../../trees/belief/index.ts';
import { compileChart, replay, standing } from '../../trees/chart/index.ts';
import {
  closedSpeakerJob,
  openShop,
  recordsOf,
  SPEAKER_MENDED,
  startSmallJob,
  type TempShop,
} from '../support/temp-shop.ts';
import { smallTree } from '../support/trees.ts';

const tree = smallTree();
/** Up to where the speaker's remedy can be taken in hand. */
const FOUND = SPEAKER_MENDED.slice(0, 4);
const TAKEN = { kind: 'start-remedy', finding: 'speaker-open' } as const;

function shownIn({ file }: TempShop, jobId: string) {
  const db = new Sqlite(file, { readonly: true });
  onTestFinished(() => void db.close());
  const rows = db.prepare<[string], { readonly seq: number; readonly findings: string }>(
    'SELECT seq, findings FROM belief_shown WHERE job_id = ?',
  );
  return rows
    .all(jobId)
    .map(({ seq, findings }) => ({ seq, findings: JSON.parse(findings) as readonly [string, number][] }));
}

/** What a bench with this history shows there, likeliest first. */
function expected(shop: TempShop) {
  const walked = replay(compileChart(tree), 'no-sound', FOUND);
  if (!walked.ok) throw new Error(walked.refusal.message);
  const { job } = standing(walked.walk);
  const model = compileFaultModel(tree, recordsOf(shop).historyOf('small'));
  const { findings } = beliefOf(model, 'no-sound', evidenceOf(tree, job));
  return findings.slice(0, 6).map(({ finding, probability }) => [finding, Math.round(probability * 100)]);
}

it('the percentages beside the likely findings are recorded with the first remedy, from the history of that moment', async () => {
  const shop = await openShop();
  const before = expected(shop);
  const first = await closedSpeakerJob(shop);
  expect(shownIn(shop, first.jobId)).toEqual([{ seq: FOUND.length, findings: before }]);
  const after = expected(shop);
  expect(after).not.toEqual(before);
  const second = await startSmallJob(shop, 'no-sound');
  for (const event of [...FOUND, TAKEN]) await second.append(event);
  expect(shownIn(shop, second.jobId)).toEqual([{ seq: FOUND.length, findings: after }]);
});

it('they are not recorded again with a later remedy, though the first was taken back', async () => {
  const shop = await openShop();
  const before = expected(shop);
  const { jobId, append } = await startSmallJob(shop, 'no-sound');
  for (const event of FOUND) await append(event);
  expect(shownIn(shop, jobId)).toEqual([]);
  for (const event of [TAKEN, { kind: 'take-back' } as const]) await append(event);
  await append({ kind: 'start-remedy', finding: 'unlisted', what: 'Crack' });
  expect(shownIn(shop, jobId)).toEqual([{ seq: FOUND.length, findings: before }]);
});

it('they are not recorded where the remedy is refused', async () => {
  const shop = await openShop();
  const { jobId, append } = await startSmallJob(shop, 'no-sound');
  await expect(append({ kind: 'start-remedy', finding: 'no-such' })).rejects.toThrow();
  expect(shownIn(shop, jobId)).toEqual([]);
});
