import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { readAndCheck, type Tree } from '../../trees/document/index.ts';
import { run } from './command-line.ts';

/** A tree that we ship, large enough that its plan is not found in a moment. */
export const panel = fileURLToPath(new URL('../../trees/library/kw1-panel.tree.json', import.meta.url));

export const panelTree = treeIn(panel);

function treeIn(file: string): Tree {
  const { tree } = readAndCheck(readFileSync(file));
  if (tree === null) throw new Error(`${file} cannot be walked`);
  return tree;
}

/** Makes a shop's database with forty invented jobs and an hourly rate. */
export async function shopWithRate(file: string, rate: number): Promise<void> {
  const made = await run('demo', '--db', file, '--jobs', '40', '--seed', '11', '--until', '2026-11-20');
  expect(made.status, made.text).toBe(0);
  const opened = openRecords({ file });
  if (!opened.ok) throw new Error(opened.message);
  opened.records.settings.set('hourly-rate', rate);
  await opened.records.close();
}
