import { expect, test } from 'vitest';
import { triedWords } from '../../../app/review/words/tried-words.ts';
import type { TriedFirst } from '../../../trees/review/index.ts';
import { rateOf } from '../../../trees/statistics/index.ts';

function tried(finding: string, right: number, of: number, ...instead: TriedFirst['instead']): TriedFirst {
  return { tree: 'gull', finding, ...rateOf(right, of), instead };
}

const words = (...triedFirst: readonly TriedFirst[]): string =>
  triedWords({ triedFirst }, (tree, finding) => `${tree} ${finding}`);

test('it is said how often the first remedy was right, and which was mostly in vain for what', () => {
  const fuse = tried('fuse', 36, 60, { finding: 'coil', jobs: 15 }, { finding: 'fan', jobs: 4 });
  expect(words(fuse, tried('fan', 44, 45))).toBe(
    'The first remedy that was proved mended the unit in 80 of 105 jobs, 76\u202f% (67 to 83\u202f%). Most often in vain: “gull fuse”, 24 of 60; it was “gull coil” in 15 of those.',
  );
});

test('what it was is left out where nothing was found, and all of it where nothing was in vain', () => {
  expect(words(tried('fuse', 36, 60))).toMatch(/24 of 60\.$/);
  expect(words(tried('fuse', 60, 60))).toMatch(/100\u202f%\)\.$/);
});

test('of few jobs it is said from how many on that means something, and of none that there is none', () => {
  expect(words(tried('fuse', 3, 5))).toMatch(/From 20 on that starts to mean something\.$/);
  expect(words()).toBe('No remedy has been proved here yet.');
});
