import { expect, it } from 'vitest';
import { isSameNamed } from '../../app/editor/list/same-named.ts';

const KNOWN = [{ title: 'Turnstone TS-1, dock', family: 'Turnstone TS-1' }, { title: 'Half written' }];

it('a new tree is said to be called as another where title and units are the same, however they are typed', () => {
  expect(isSameNamed(KNOWN, ' turnstone  TS-1, dock', 'Turnstone ts-1 ')).toBe(true);
  expect(isSameNamed(KNOWN, 'Turnstone TS-1, dock', 'Turnstone TS-2')).toBe(false);
  expect(isSameNamed(KNOWN, 'Turnstone TS-1', 'Turnstone TS-1')).toBe(false);
});

it('a draft that is not published yet is gone by its title, once the units are given', () => {
  expect(isSameNamed(KNOWN, 'Half written', 'Dunlin')).toBe(true);
  expect(isSameNamed(KNOWN, 'Half written', '')).toBe(false);
});
