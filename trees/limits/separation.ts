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
  /** Findings that lie above the limit, the upper band among them, and those that lie below, with the readings used. */
  readonly positives: readonly FindingReadings[];
  readonly negatives: readonly FindingReadings[];
  /** Left out because their finding could lie on either side, or is not said to lie on any. */
  readonly either: readonly FindingReadings[];
  readonly suggestion: Suggestion;
}

/** A finding lies on one side of a limit where at least this part of what it expects does. */
const CLEAR = 0.9;

/**
 * For every limit between two neighbouring bands of a test: which findings it separates, and where the readings of closed
 * jobs would have it. Findings that expect neither of the two bands next to it say nothing of a limit; readings that
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
    const order = holding.map(({ result }) => result);
    return separationAt(sides(expected, order, index + 1), placed, below.result, above.result, room);
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
  side: (finding: string) => Side,
  readings: readonly PlacedReading[],
  below: string,
  above: string,
  room: LimitRoom,
): Separation {
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

/** The side on which each finding lies of the limit below the band at `index` of `order`, lowest first. */
function sides(expected: Expected, order: readonly string[], index: number): (finding: string) => Side {
  const known = new Map(
    [...expected].map(([finding, shares]) => [finding, sideOf(shares, order, index)] as const),
  );
  return (finding) => known.get(finding) ?? 'either';
}

function sideOf(
  shares: Readonly<Record<string, number>> | null,
  order: readonly string[],
  index: number,
): Side {
  if (shares === null) return 'either';
  const inOrder = order.map((result) => shares[result] ?? 0);
  if ((inOrder[index - 1] ?? 0) + (inOrder[index] ?? 0) === 0) return 'neither';
  const total = sumOf(inOrder);
  const above = sumOf(inOrder.slice(index)) / total;
  if (above >= CLEAR) return 'above';
  return 1 - above >= CLEAR ? 'below' : 'either';
}

function sumOf(shares: readonly number[]): number {
  return shares.reduce((sum, share) => sum + share, 0);
}

function byFinding(readings: readonly PlacedReading[]): readonly FindingReadings[] {
  const counts = new Map<string, number>();
  for (const { finding } of readings) counts.set(finding, (counts.get(finding) ?? 0) + 1);
  return [...counts].map(([finding, count]) => ({ finding, readings: count }));
}
