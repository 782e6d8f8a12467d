import { describe, expect, it } from 'vitest';
import { filterIn } from '../../../app/review/filter/address.ts';
import { unknownIn } from '../../../app/review/filter/unknown.ts';
import { NO_NAMES } from '../../../app/review/words/titles.ts';
import { ALL_JOBS } from '../../../trees/review/index.ts';

const PERSON = '01900000-0000-7000-8000-0000000000c0';
const CHOICES = {
  trees: ['kw-1', 'dunlin'],
  boards: [
    { tree: 'kw-1', board: 'A2' },
    { tree: 'dunlin', board: '' },
  ],
  technicians: [PERSON],
};
const NAMES = { ...NO_NAMES, trees: { 'kw-1': 'Kittiwake KW-1' } };
const told = (query: Record<string, string>) => unknownIn(filterIn(query), CHOICES, NAMES);

describe('what of an address no closed job has', () => {
  it('is nothing where every filter has jobs, a board that was not noted among them', () => {
    expect(told({})).toEqual([]);
    expect(told({ tree: 'kw-1', board: 'A2', by: PERSON })).toEqual([]);
    expect(told({ board: '' })).toEqual([]);
  });

  it('is named with what takes it off', () => {
    expect(told({ tree: 'gone' })).toMatchObject(
      [{ sentence: /“gone”/u, off: { tree: null } }].map(matching),
    );
    expect(told({ tree: 'kw-1', board: '' })).toMatchObject([{ off: { board: null } }]);
    expect(told({ by: PERSON.replace('c0', 'c1') })).toMatchObject([{ off: { technician: null } }]);
    expect(told({ from: '2026-03-02', to: '2026-03-01' })).toMatchObject([{ off: { from: null, to: null } }]);
  });

  it('is what cannot be read, which narrows nothing', () => {
    const asked = filterIn({ window: 'long' });
    expect(asked.filter).toEqual(ALL_JOBS);
    expect(unknownIn(asked, null, null)).toMatchObject([
      { sentence: expect.stringContaining('comeback window') },
    ]);
  });
});

function matching({ sentence, off }: { sentence: RegExp; off: object }) {
  return { sentence: expect.stringMatching(sentence) as unknown, off };
}
