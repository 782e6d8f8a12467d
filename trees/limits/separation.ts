import { own, type Test, type Tree } from '../document/index.ts';
import { expectedOf, type Expected } from './expected.ts';
import { ascending, layoutBands } from './layout.ts';
import { placeOf, type RecordedReading } from './recorded-reading.ts';
import { youden, type LimitRoom, type Suggestion } from './youden.ts';

/** A finding with readings, and how many of them there are. */
export interface FindingReadings {
  readonly finding: string;
  readonly readings: number;
}

/** What the readings say of the limit between two neighbouring bands. */
export interface Separation {
  readonly below: string;
  readonly above: string;
  /** Where the limit stands; null where the two bands do not meet. */
  readonly at: number | null;
  readonly room: LimitRoom;
  /** Findings that make the upper band likely, and those that make the lower band likely, with the readings used. */
  readonly positives: readonly FindingReadings[];
  readonly negatives: readonly FindingReadings[];
  /** Left out because their finding could give either of the two bands, or is not said to give any. */
  readonly either: readonly FindingReadings[];
  readonly suggestion: Suggestion;
}

/** A finding stands for one of two bands where that band has at least this part of what it expects of the two. */
const CLEAR = 0.9;

/**
 * For every limit between two neighbouring bands of a test: which findings it separates, and where the readings of closed
 * jobs would have it. Findings that expect neither of the two bands say nothing of the limit between them; readings that
 * cannot be placed (a ratio without its earlier reading) are passed over. `Infinity` is where `OL` lies.
 */
export function separationsOf(
  tree: Tree,
  testId: string,
  readings: readonly RecordedReading[],
): readonly Separation[] {
  const test = own(tree.tests, testId);
  if (test === undefined) return [];
  const expected = expectedOf(tree, testId);
  const placed = placedReadings(test, readings);
  const { bands, references } = layoutBands(test.results);
  if (references.length > 1) return [];
  const holding = ascending(bands);
  return holding.slice(1).map((above, index) => {
    const below = holding[index] ?? above;
    const room = {
      present: below.to === above.from ? above.from : null,
      above: below.from,
      below: above.to,
    };
    return separationAt(expected, placed, below.result, above.result, room);
  });
}

interface PlacedReading {
  readonly at: number;
  readonly finding: string;
}

function placedReadings(test: Test, readings: readonly RecordedReading[]): readonly PlacedReading[] {
  return readings.flatMap((reading) => {
    const at = placeOf(test, reading);
    return at === null ? [] : [{ at, finding: reading.finding }];
  });
}

function separationAt(
  expected: Expected,
  readings: readonly PlacedReading[],
  below: string,
  above: string,
  room: LimitRoom,
): Separation {
  const side = sides(expected, below, above);
  const of = (which: Side) => readings.filter(({ finding }) => side(finding) === which);
  const [positives, negatives] = [of('above'), of('below')];
  const used = [...positives, ...negatives];
  return {
    below,
    above,
    at: room.present,
    room,
    positives: byFinding(positives),
    negatives: byFinding(negatives),
    either: byFinding(of('either')),
    suggestion: youden(used, ({ finding }) => side(finding) === 'above', room),
  };
}

type Side = 'above' | 'below' | 'either' | 'neither';

function sides(expected: Expected, below: string, above: string): (finding: string) => Side {
  const known = new Map(
    [...expected].map(([finding, shares]) => [finding, sideOf(shares, below, above)] as const),
  );
  return (finding) => known.get(finding) ?? 'either';
}

function sideOf(shares: Readonly<Record<string, number>> | null, below: string, above: string): Side {
  if (shares === null) return 'either';
  const [low, high] = [shares[below] ?? 0, shares[above] ?? 0];
  const both = low + high;
  if (both === 0) return 'neither';
  if (high / both >= CLEAR) return 'above';
  return low / both >= CLEAR ? 'below' : 'either';
}

function byFinding(readings: readonly PlacedReading[]): readonly FindingReadings[] {
  const counts = new Map<string, number>();
  for (const { finding } of readings) counts.set(finding, (counts.get(finding) ?? 0) + 1);
  return [...counts].map(([finding, count]) => ({ finding, readings: count }));
}
