import { refuse, taken, type Taken } from '../refusal.ts';
import type { PictureSize } from '../picture-size.ts';
import { tooMuchShown } from './count-shown.ts';
import { settleSize } from './drawing-size.ts';
import { parseDrawing } from './parse-drawing.ts';
import { writeDrawing } from './write-drawing.ts';

const LONGEST = 3 * 1024 * 1024;

/** A drawing written anew, and how large it is shown, in CSS pixels. */
export interface CleanDrawing extends PictureSize {
  readonly text: string;
}

/**
 * An SVG drawing parsed strictly and written anew from the elements and attributes that shapes and words need. Scripts, events,
 * animation, foreign content, filters, and references to anything outside the drawing are left out; styles become attributes.
 * What cannot be parsed, holds a document type or a photograph, or would draw beyond measure is refused. What comes out is a
 * fixed point: sanitised again it is the same. Takes any text; never throws.
 */
export function sanitiseSvg(text: string): Taken<CleanDrawing> {
  if (text.length > LONGEST) return tooLong();
  const parsed = parseDrawing(text);
  if (!parsed.ok) return parsed;
  const root = parsed.value;
  const size = settleSize(root);
  if (!size.ok) return size;
  const refusal = tooMuchShown(root);
  if (refusal !== null) return refusal;
  const written = writeDrawing(root);
  return written.length > LONGEST ? tooLong() : taken({ text: written, ...size.value });
}

function tooLong(): Taken<never> {
  return refuse(
    'The drawing has more than 3 MiB.',
    'Simplify it in a drawing program, or save it as a PNG, and take that.',
  );
}
