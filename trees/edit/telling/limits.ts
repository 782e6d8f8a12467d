import { valueAt } from '../../document/index.ts';
import { isRecord, type DraftDocument, type Json } from '../json.ts';
import { resultName } from './names.ts';
import { limitWords } from './values.ts';

/** A band as far as a draft has it written. */
interface Band {
  readonly result: string;
  readonly from: number;
  readonly to: number;
}

/** A limit that two bands of a test share. */
interface Limit {
  readonly below: string;
  readonly above: string;
  readonly value: number;
}

/** A limit that has moved: the results below and above it, and where it was and is, in words. */
export interface MovedLimit {
  readonly below: string;
  readonly above: string;
  readonly says: string;
}

/**
 * How the limits of a test have moved, each limit told once although it stands in two bands. Null where the bands do not
 * follow one another in the same order before and after, so that limits cannot be told from each other.
 */
export function movedLimits(
  before: DraftDocument,
  after: DraftDocument,
  test: string,
): readonly MovedLimit[] | null {
  const was = limitsIn(before, test);
  const is = limitsIn(after, test);
  if (was === null || is === null || was.length !== is.length) return null;
  const same = was.every(
    ({ below, above }, index) => below === is[index]?.below && above === is[index]?.above,
  );
  if (!same) return null;
  return is.flatMap((limit, index) => {
    const former = was[index];
    const now = words(after, test, limit);
    const then = former === undefined ? now : words(before, test, former);
    if (now === then) return [];
    const { below, above } = limit;
    const between = `${resultName(after, test, below)} and ${resultName(after, test, above)}`;
    return [{ below, above, says: `Limit between ${between}: ${now}, was ${then}` }];
  });
}

/** All bands of a test in a line, lowest first. */
export function bandsWords(document: DraftDocument, test: string): string {
  return bandsIn(document, test)
    .map(({ result, from, to }) => {
      const at = (value: number) => limitWords(document, ['tests', test, 'results', result], value);
      const name = resultName(document, test, result);
      if (from === -Infinity) return to === Infinity ? `${name} always` : `${name} below ${at(to)}`;
      return to === Infinity ? `${name} from ${at(from)}` : `${name} from ${at(from)} to ${at(to)}`;
    })
    .join('; ');
}

function words(document: DraftDocument, test: string, { above, value }: Limit): string {
  return limitWords(document, ['tests', test, 'results', above], value);
}

function limitsIn(document: DraftDocument, test: string): readonly Limit[] | null {
  const bands = bandsIn(document, test);
  const limits = bands.slice(1).map(({ result, from }, index): Limit => {
    const below = bands[index];
    return { below: below?.result ?? '', above: result, value: below?.to === from ? from : Number.NaN };
  });
  const open = bands[0]?.from === -Infinity && bands.at(-1)?.to === Infinity;
  return open && limits.every(({ value }) => !Number.isNaN(value)) ? limits : null;
}

function bandsIn(document: DraftDocument, test: string): readonly Band[] {
  const results = valueAt(document, ['tests', test, 'results']) as Json | undefined;
  if (!isRecord(results)) return [];
  return Object.entries(results)
    .flatMap(([result, value]): readonly Band[] => {
      const band = isRecord(value) ? value.band : undefined;
      if (!isRecord(band)) return [];
      const { from = -Infinity, to = Infinity } = band;
      return [{ result, from: Number(from), to: Number(to) }];
    })
    .sort((a, b) => (a.from === b.from ? 0 : a.from - b.from));
}
