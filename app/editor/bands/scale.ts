/** How the line is drawn: places on it from 0 (left) to 1, in proportion or by decades. */
export interface Scale {
  readonly kind: 'linear' | 'decades';
  /** The values at the left and the right end. */
  readonly low: number;
  readonly high: number;
  /** Where a value is drawn, 0..1; beyond the ends it is drawn at the end. */
  readonly place: (value: number) => number;
  /** The value at a place. */
  readonly value: (place: number) => number;
}

/** Limits so many times apart, all above zero, are drawn by decades. */
const DECADES_FROM = 20;
/** Room beside the outermost limits, as a share of what lies between them, and at most this many times for readings. */
const PADDING = 0.3;
const FURTHER = 1.5;
/** Decades beside the outermost limits, and at most this many for readings. */
const PADDING_DECADES = 0.5;
const FURTHER_DECADES = 2;
const RATHER_EMPTY: Ends = [0, 1];

type Ends = readonly [low: number, high: number];

/** The scale that limits ask for, reaching out to the readings where they are not far off. */
export function scaleFor(limits: readonly number[], readings: readonly number[]): Scale {
  const finite = readings.filter(Number.isFinite);
  const shown = limits.length > 0 ? limits : finite;
  const [low, high] = endsOf(shown) ?? RATHER_EMPTY;
  const positive = finite.filter((value) => value > 0);
  if (low > 0 && byDecades(limits, low, high, positive)) {
    const logs = positive.map(Math.log10);
    return decadeScale(
      stretched([Math.log10(low), Math.log10(high)], logs, PADDING_DECADES, FURTHER_DECADES),
    );
  }
  // Limits that differ in their last digits only are one place.
  const span = high - low > 1e-9 * Math.abs(high) ? high - low : Math.abs(low) || 1;
  return linearScale(stretched([low, high], finite, PADDING * span, FURTHER * span));
}

function byDecades(
  limits: readonly number[],
  low: number,
  high: number,
  readings: readonly number[],
): boolean {
  if (high >= DECADES_FROM * low) return true;
  const [least, most] = endsOf(readings) ?? [1, 1];
  // One limit alone says nothing of the scale; its readings do.
  return limits.length <= 1 && most >= DECADES_FROM * DECADES_FROM * least;
}

/** The ends with their padding, further out where readings lie, but not beyond `further`. */
function stretched([low, high]: Ends, readings: readonly number[], padding: number, further: number): Ends {
  const [least, most] = endsOf(readings) ?? [low, high];
  const room = padding / 3;
  return [
    Math.max(low - further, Math.min(low - padding, least - room)),
    Math.min(high + further, Math.max(high + padding, most + room)),
  ];
}

function linearScale([low, high]: Ends): Scale {
  return {
    kind: 'linear',
    low,
    high,
    place: (value) => within((value - low) / (high - low)),
    value: (place) => low + place * (high - low),
  };
}

function decadeScale([low, high]: Ends): Scale {
  return {
    kind: 'decades',
    low: 10 ** low,
    high: 10 ** high,
    place: (value) => (value <= 0 ? 0 : within((Math.log10(value) - low) / (high - low))),
    value: (place) => 10 ** (low + place * (high - low)),
  };
}

/** Round values along the scale, four to eight of them, for its marks. */
export function marksOf(scale: Scale): readonly number[] {
  return scale.kind === 'decades' ? decadeMarks(scale) : linearMarks(scale);
}

function decadeMarks({ low, high }: Scale): readonly number[] {
  const [first, last] = [Math.ceil(Math.log10(low) - 1e-9), Math.floor(Math.log10(high) + 1e-9)];
  const every = Math.max(1, Math.ceil((last - first + 1) / 7));
  const count = Math.max(0, Math.floor((last - first) / every) + 1);
  return Array.from({ length: count }, (_, index) => Number(`1e${String(first + index * every)}`));
}

function linearMarks({ low, high }: Scale): readonly number[] {
  const step = roundStep((high - low) / 5);
  const [first, last] = [Math.ceil(low / step), Math.floor(high / step)];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => tidy((first + index) * step));
}

/** The smallest of 1, 2 and 5 times a power of ten that is not below `least`. */
export function roundStep(least: number): number {
  const power = Math.floor(Math.log10(least));
  const step = [1, 2, 5, 10].find((times) => times * 10 ** power >= least * (1 - 1e-9)) ?? 10;
  return Number(`${String(step)}e${String(power)}`);
}

/** Without the traces that sums of decimal fractions leave. */
export function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

function within(place: number): number {
  return Math.min(1, Math.max(0, place));
}

function endsOf(values: readonly number[]): Ends | null {
  let [low, high] = [Infinity, -Infinity];
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return low <= high ? [low, high] : null;
}
