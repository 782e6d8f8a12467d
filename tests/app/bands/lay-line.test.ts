import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelsOn, lanesOf } from '../../../app/editor/bands/lay-line.ts';

describe('pieces along the line', () => {
  it('share a lane unless they lie over each other', () => {
    const pieces = [
      { from: 2, to: 4 },
      { from: 0, to: 2 },
      { from: 1, to: 3 },
    ];
    expect(lanesOf(pieces)).toEqual([0, 0, 1]);
  });

  it('never lie over each other in one lane', () => {
    const piece = fc.tuple(fc.nat(50), fc.integer({ min: 1, max: 20 })).map(([from, width]) => ({
      from,
      to: from + width,
    }));
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        const lanes = lanesOf(pieces);
        pieces.forEach((one, at) =>
          pieces.slice(at + 1).forEach((other, further) => {
            if (lanes[at] !== lanes[at + 1 + further]) return;
            expect(one.to <= other.from || other.to <= one.from).toBe(true);
          }),
        );
      }),
    );
  });

  it('are labelled on their place, and within the line at its ends', () => {
    expect(labelsOn([0, 0.5, 1], [40, 40, 40], 400)).toEqual([
      { from: 0, to: 40 },
      { from: 180, to: 220 },
      { from: 360, to: 400 },
    ]);
  });
});
