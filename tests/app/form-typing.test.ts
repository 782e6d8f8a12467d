import { describe, expect, it } from 'vitest';
import { Typing } from '../../app/editor/form/entry/typing.svelte.ts';

const PLACE = '/tests/rail/minutes';

describe('what is typed into a form’s field', () => {
  it('is kept for as long as the document has there what it was typed over', () => {
    const typing = new Typing();
    typing.keep(PLACE, { text: '0,75', over: 0.75, wrong: undefined });
    expect(typing.at(PLACE, 0.75)?.text).toBe('0,75');
    // An undo gives the document another value, and the field with it.
    expect(typing.at(PLACE, 0.5)).toBeNull();
    expect(typing.at('/tests/rail/title', 0.75)).toBeNull();
  });

  it('is kept with why the document does not take it, until it is forgotten', () => {
    const typing = new Typing();
    typing.keep(PLACE, { text: '5x', over: undefined, wrong: 'Type a plain number.' });
    expect(typing.at(PLACE, undefined)).toEqual({
      text: '5x',
      over: undefined,
      wrong: 'Type a plain number.',
    });
    typing.forget(PLACE);
    expect(typing.at(PLACE, undefined)).toBeNull();
  });

  it('is forgotten in a list whose entries have come to stand elsewhere, and in no other', () => {
    const typing = new Typing();
    const [part, other] = ['/findings/a/remedy/parts/0/price', '/findings/a/remedy/parts-of/0'];
    typing.keep(part, { text: 'x', over: 1, wrong: 'No.' });
    typing.keep(other, { text: 'y', over: 1, wrong: 'No.' });
    typing.forgetIn('/findings/a/remedy/parts');
    expect(typing.at(part, 1)).toBeNull();
    expect(typing.at(other, 1)?.text).toBe('y');
  });
});
