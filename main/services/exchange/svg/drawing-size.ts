import { refuse, taken, type Taken } from '../refusal.ts';
import type { PictureSize } from '../picture-size.ts';
import type { Drawn } from './drawing.ts';

/** CSS pixels of a length's unit (CSS Values 4, 6.2); a length without a unit is in pixels. */
const PIXELS: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  pt: 96 / 72,
  pc: 16,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
};

/**
 * How large a drawing is shown, in CSS pixels, by its width and height or else its viewBox. Sides that it leaves open are
 * written into it, so that every browser shows it alike.
 */
export function settleSize({ attributes }: Drawn): Taken<PictureSize> {
  const box = boxOf(attributes.get('viewBox'));
  const width = lengthOf(attributes.get('width'));
  const height = lengthOf(attributes.get('height'));
  const size = width !== null && height !== null ? { width, height } : open(width, height, box);
  if (size === null)
    return refuse(
      'The drawing does not say how large it is.',
      'Give it a width and a height in a drawing program, save it again, and take that.',
    );
  if (width === null) attributes.set('width', String(size.width));
  if (height === null) attributes.set('height', String(size.height));
  return taken(size);
}

function open(width: number | null, height: number | null, box: PictureSize | null): PictureSize | null {
  if (box === null) return null;
  if (width !== null) return { width, height: (width * box.height) / box.width };
  return height === null ? box : { width: (height * box.width) / box.height, height };
}

function boxOf(viewBox: string | undefined): PictureSize | null {
  const numbers =
    viewBox
      ?.trim()
      .split(/[\s,]+/)
      .map(Number) ?? [];
  const [, , width = 0, height = 0] = numbers;
  return numbers.length === 4 && width > 0 && height > 0 ? { width, height } : null;
}

/** Pixels of a length; null where it is not there, a percentage, or in a unit that depends on where the drawing stands. */
function lengthOf(length: string | undefined): number | null {
  const [, figure, unit = ''] = /^\s*(\d+(?:\.\d*)?|\.\d+)(?:e0)?([a-z]*)\s*$/.exec(length ?? '') ?? [];
  const pixels = Object.hasOwn(PIXELS, unit) ? PIXELS[unit] : undefined;
  return figure === undefined || pixels === undefined || Number(figure) === 0
    ? null
    : Number(figure) * pixels;
}
