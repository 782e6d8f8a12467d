import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PictureDesk } from '../../app/editor/picture/picture-desk.svelte.ts';
import { moved, placeAt, within } from '../../app/editor/picture/points.ts';
import type { Picture } from '../../trees/document/index.ts';

const POINTS = [
  { x: 0.25, y: 0.5, label: 'TP1' },
  { x: 0.75, y: 0.5, label: 'TP2' },
];

function deskWith(points: Picture['points'] = POINTS) {
  let picture: Picture | undefined = { file: 'board.svg', points };
  const told: string[] = [];
  const desk = new PictureDesk(() => ({
    picture,
    source: () => Promise.reject(new Error('not asked for')),
    onchange: (next, what, joins) => {
      picture = next;
      told.push(joins ?? what);
    },
    ontake: (file) =>
      Promise.resolve(
        file.name === 'good.png'
          ? { ok: true, value: 'good.png' }
          : {
              ok: false,
              trouble: { code: 'REFUSED_FILE', message: 'No.', where: '/base64', help: 'Another.' },
            },
      ),
  }));
  return { desk, told, picture: () => picture };
}

describe('a point', () => {
  it.each([
    ['ArrowLeft', false, { x: 0.49, y: 0.5 }],
    ['ArrowRight', true, { x: 0.501, y: 0.5 }],
    ['ArrowUp', false, { x: 0.5, y: 0.49 }],
    ['ArrowDown', true, { x: 0.5, y: 0.501 }],
  ])('moves by %s, finely with Shift (%s)', (key, small, to) => {
    expect(moved({ x: 0.5, y: 0.5 }, key, small)).toEqual(to);
  });

  it('is not moved by other keys', () => {
    expect(moved({ x: 0.5, y: 0.5 }, 'a', false)).toBeNull();
    expect(moved({ x: 0.5, y: 0.5 }, 'constructor', false)).toBeNull();
  });

  it('stays on the picture wherever it is put, to a ten-thousandth', () => {
    const any = fc.double({ noNaN: true, min: -1e9, max: 1e9 });
    fc.assert(
      fc.property(any, any, (x, y) => {
        const at = within({ x, y });
        for (const one of [at.x, at.y]) {
          expect(one).toBeGreaterThanOrEqual(0);
          expect(one).toBeLessThanOrEqual(1);
          expect(Math.abs(one * 10_000 - Math.round(one * 10_000))).toBeLessThan(1e-9);
        }
        if (x >= 0 && x <= 1) expect(Math.abs(at.x - x)).toBeLessThanOrEqual(0.5e-4 + 1e-12);
      }),
    );
  });

  it('is put down where the pointer is on the picture', () => {
    const box = { left: 100, top: 50, width: 400, height: 200 };
    expect(placeAt({ clientX: 200, clientY: 200 }, box)).toEqual({ x: 0.25, y: 0.75 });
  });
});

describe('the points in hand', () => {
  it('get a new one at the end, selected and without a label', () => {
    const { desk, picture } = deskWith();
    desk.place({ x: 0.1, y: 2 });
    expect(picture()?.points).toEqual([...POINTS, { x: 0.1, y: 1, label: '' }]);
    expect(desk.selected).toBe(2);
  });

  it('have one dragged without anything being told until it is let go', () => {
    const { desk, told, picture } = deskWith();
    desk.grab(1);
    desk.drag({ x: 0.6, y: 0.6 });
    expect(desk.points[1]).toEqual({ x: 0.6, y: 0.6, label: 'TP2' });
    expect(told).toEqual([]);
    desk.drop();
    expect(picture()?.points[1]).toEqual({ x: 0.6, y: 0.6, label: 'TP2' });
    expect(told).toHaveLength(1);
  });

  it('tell nothing of one that was only grabbed', () => {
    const { desk, told } = deskWith();
    desk.grab(1);
    desk.drop();
    expect(told).toEqual([]);
    expect(desk.selected).toBe(1);
  });

  it('join the keystrokes of one point into one change, and not those of another', () => {
    const { desk, told } = deskWith();
    desk.step(0, 'ArrowUp', false);
    desk.step(0, 'ArrowLeft', true);
    desk.step(1, 'ArrowUp', false);
    desk.label(0, 'T');
    desk.label(0, 'TP9');
    expect(told).toEqual(['move-0', 'move-0', 'move-1', 'label-0', 'label-0']);
  });

  it('are reordered and removed', () => {
    const { desk, picture } = deskWith();
    desk.reorder(0, 1);
    expect(picture()?.points.map(({ label }) => label)).toEqual(['TP2', 'TP1']);
    desk.remove(0);
    expect(picture()?.points.map(({ label }) => label)).toEqual(['TP1']);
    expect(desk.selected).toBeLessThan(1);
  });
});

describe('a picture taken in', () => {
  it('takes the former one’s place under its points', async () => {
    const { desk, picture } = deskWith();
    await desk.take([new File(['x'], 'good.png')]);
    expect(picture()).toEqual({ file: 'good.png', points: POINTS });
    expect(desk.taking).toBe('');
  });

  it('leaves the former one where it is refused, and says why', async () => {
    const { desk, picture } = deskWith();
    await desk.take([new File(['x'], 'bad.png')]);
    expect(picture()?.file).toBe('board.svg');
    expect(desk.trouble?.message).toBe('No.');
  });

  it('is gone when it is taken off', () => {
    const { desk, picture } = deskWith();
    desk.takeOff();
    expect(picture()).toBeUndefined();
  });
});
