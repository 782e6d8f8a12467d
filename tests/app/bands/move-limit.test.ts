import { describe, expect, it } from 'vitest';
import { draggedTo, keyedTo, neighboursOf } from '../../../app/editor/bands/move-limit.ts';
import { scaleFor } from '../../../app/editor/bands/scale.ts';

const RAIL = scaleFor([0.4, 3.135, 3.465], []);
const OHMS = scaleFor([20, 1000, 1e6], []);
const FREE = { above: -Infinity, below: Infinity };
const press = (key: string, shiftKey = false) => ({ key, shiftKey });

describe('a limit moved by keys', () => {
  it('goes by a hundredth of the line, ten times as far by page keys and a tenth with Shift', () => {
    expect(keyedTo(RAIL, 3.135, press('ArrowRight'), FREE)).toBe(3.145);
    expect(keyedTo(RAIL, 3.135, press('ArrowDown'), FREE)).toBe(3.125);
    expect(keyedTo(RAIL, 3.135, press('PageUp'), FREE)).toBe(3.235);
    expect(keyedTo(RAIL, 3.135, press('ArrowLeft', true), FREE)).toBe(3.134);
  });

  it('goes by its second digit on a line by decades, finer below a power of ten', () => {
    expect(keyedTo(OHMS, 1000, press('ArrowUp'), FREE)).toBe(1100);
    expect(keyedTo(OHMS, 1000, press('ArrowLeft'), FREE)).toBe(990);
    expect(keyedTo(OHMS, 20, press('ArrowUp', true), FREE)).toBe(20.1);
  });

  it('does not pass its neighbours', () => {
    const between = { above: 0.4, below: 3.465 };
    expect(keyedTo(RAIL, 3.46, press('PageUp'), between)).toBe(3.455);
    expect(keyedTo(RAIL, 3.455, press('ArrowUp'), between)).toBe(3.455);
    expect(keyedTo(RAIL, 1, press('ArrowUp'), { above: 0.999, below: 1.001 })).toBe(1);
  });

  it('is left alone by other keys', () => {
    expect(keyedTo(RAIL, 3.135, press('a'), FREE)).toBeNull();
    expect(keyedTo(RAIL, 3.135, press('Tab'), FREE)).toBeNull();
  });
});

describe('a limit dragged', () => {
  it('is as round as half a pixel allows', () => {
    const place = RAIL.place(2.71828);
    expect(draggedTo(RAIL, place, 1 / 500, FREE)).toBe(2.72);
    expect(draggedTo(OHMS, OHMS.place(4711), 1 / 500, FREE)).toBe(4700);
  });

  it('stays between its neighbours', () => {
    const between = neighboursOf(
      [0.4, 3.135, 3.465].map((at) => ({ at, ends: [], starts: [] })),
      1,
    );
    expect(between).toEqual({ above: 0.4, below: 3.465 });
    expect(draggedTo(RAIL, 1, 1 / 500, between)).toBeLessThan(3.465);
    expect(draggedTo(RAIL, -3, 1 / 500, between)).toBeGreaterThan(0.4);
  });
});
