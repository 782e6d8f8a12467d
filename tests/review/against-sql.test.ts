import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DuckDBConnection } from '@duckdb/node-api';
import { openFactReader, type FactReader } from '../../main/records/index.ts';
import { addLibrary, makeDemo } from '../../main/services/index.ts';
import { openReviews, type Reviews } from '../../main/services/review/index.ts';
import { ALL_JOBS, type ReviewFilter } from '../../trees/review/index.ts';
import { differences, loadFacts, reviewFigures, sqlFigures } from '../support/duckdb/index.ts';
import { seededShop } from '../support/temp-shop.ts';

const JOBS = 2000;
const UNTIL = Date.UTC(2026, 0, 31);

let shop: ReturnType<typeof seededShop>;
let reader: FactReader;
let reviews: Reviews;
let connection: DuckDBConnection;
let technician: string;

describe('the review against the same figures in SQL over the same jobs', { timeout: 120_000 }, () => {
  beforeAll(async () => {
    shop = seededShop();
    addLibrary(shop.records);
    makeDemo({ records: shop.records, jobs: JOBS, seed: 12, until: UNTIL });
    reader = openFactReader(shop.file);
    reviews = openReviews(reader);
    const trees = shop.records.trees.list().flatMap(({ treeId }) => shop.records.trees.current(treeId) ?? []);
    connection = await loadFacts(reader.facts(), trees);
    technician = shop.records.technicians.list()[3]?.id ?? '';
  }, 120_000);
  afterAll(async () => {
    connection.closeSync();
    reader.close();
    await shop.close();
  });

  const filters: readonly (readonly [string, () => ReviewFilter])[] = [
    ['all jobs', () => ALL_JOBS],
    ['one tree', () => ({ ...ALL_JOBS, tree: 'kw1-usb-charge' })],
    ['one board', () => ({ ...ALL_JOBS, board: 'B1' })],
    ['one technician', () => ({ ...ALL_JOBS, technician })],
    [
      'a time, and a shorter window',
      () => ({ ...ALL_JOBS, from: '2025-05-10', to: '2025-11-20', window: 30 }),
    ],
  ];
  it.each(filters)('is the same to 1e-9 relative of %s', async (_, filter) => {
    const page = reviews.figures(filter(), UNTIL);
    if (page === null) throw new Error('stopped');
    const ours = reviewFigures(page.review);
    expect(ours.get('all closed')).toBeGreaterThan(100);
    expect(differences(ours, await sqlFigures(connection, filter(), UNTIL), 1e-9)).toEqual([]);
  });

  it('is compared in every figure that has jobs, and a wrong one is found', async () => {
    const page = reviews.figures(ALL_JOBS, UNTIL);
    if (page === null) throw new Error('stopped');
    const ours = new Map(reviewFigures(page.review));
    expect(ours.size).toBeGreaterThan(500);
    ours.set('all fixed', (ours.get('all fixed') ?? 0) + 1);
    expect(differences(ours, await sqlFigures(connection, ALL_JOBS, UNTIL), 1e-9)).toHaveLength(1);
  });
});
