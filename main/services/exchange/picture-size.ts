import { refuse, taken, type Taken } from './refusal.ts';

/** A picture as it is shown, in pixels (for a drawing: in CSS pixels). */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** Longest side, in pixels: beyond it browsers begin to show nothing at all. */
export const LONGEST_SIDE = 12_000;
/** Most pixels: unpacked they take four bytes each. */
export const PIXELS_AT_MOST = 60_000_000;

/** The size, where a picture of it can be shown on any machine of the shop. */
export function sizeWithin(size: PictureSize): Taken<PictureSize> {
  const { width, height } = size;
  if (!(width > 0 && height > 0))
    return refuse('The picture has no size.', 'Save it again from a picture editor.');
  const side = Math.max(width, height);
  if (side <= LONGEST_SIDE && width * height <= PIXELS_AT_MOST) return taken(size);
  return refuse(
    `The picture is ${inPixels(size)}; a side has at most ${String(LONGEST_SIDE)} and the whole at most ${String(PIXELS_AT_MOST / 1e6)} million pixels.`,
    'Make it smaller in a picture editor: 2000 pixels on the longer side are plenty for a board.',
  );
}

function inPixels({ width, height }: PictureSize): string {
  return `${String(Math.round(width))} by ${String(Math.round(height))} pixels`;
}
