import type { JobEvent, JobState, Reading, RemedyTried } from '../../../trees/chart/index.ts';
import { UNLISTED, type Tree } from '../../../trees/document/index.ts';
import type { ShopInstrument, StoredEvent } from '../../../main/contract/index.ts';
import { findingTitle, resultTitle, testTitle } from '../job/act-words.ts';
import { accuracyWords } from '../../parts/index.ts';
import { readingWords, unitSymbol } from '../job/reading-words.ts';
import { overtakenAnswers, type Overtaken } from './overtaken.ts';

/** One test of the sheet: what it gave, and with what it was measured. */
export interface SheetTest {
  readonly at: string;
  readonly technicianId: string;
  readonly test: string;
  readonly result: string;
  readonly reading: string;
  readonly typed: string;
  readonly band: string;
  readonly instrument: string;
  readonly corrected: boolean;
  /** Turned to on the planner's advice. */
  readonly advised: boolean;
  /** Why it no longer counts; null where it stands, or stood in its time. */
  readonly overtaken: Overtaken | null;
}

export interface SheetSkip {
  readonly test: string;
  readonly reason: string;
  /** The result that the path went on as; null where the test was left out. */
  readonly as: string | null;
}

export interface SheetRemedy {
  readonly title: string;
  readonly state: RemedyTried['state'];
  readonly reason: string;
  /** Taken in hand on the planner's advice. */
  readonly advised: boolean;
  readonly steps: readonly string[];
  readonly parts: readonly { readonly name: string; readonly price: number }[];
  readonly cautions: readonly string[];
  readonly proofs: readonly { readonly test: string; readonly result: string; readonly reading: string }[];
}

/** What a job sheet says beside the ticket; changeovers are left out. */
export interface Sheet {
  readonly tests: readonly SheetTest[];
  readonly skips: readonly SheetSkip[];
  readonly remedies: readonly SheetRemedy[];
  readonly cautions: readonly string[];
}

/** Draws the sheet from the events that still count and from where the job stands. */
export function sheetOf(
  tree: Tree,
  kept: readonly StoredEvent[],
  job: JobState,
  instruments: readonly ShopInstrument[],
): Sheet {
  // The chart adds a remedy with each that is taken in hand.
  const taken = kept.flatMap(({ event }) => (event.kind === 'start-remedy' ? [event.advised === true] : []));
  const remedies = job.remedies.map((remedy, at) => sheetRemedy(tree, remedy, taken[at] ?? false));
  const advised = advisedAnswers(kept.map(({ event }) => event));
  const overtaken = overtakenAnswers(kept.map(({ event }) => event));
  const tests = kept.flatMap((stored, at) =>
    sheetTest(tree, stored, instruments).map((test) => ({
      ...test,
      advised: advised.has(at),
      overtaken: overtaken.get(at) ?? null,
    })),
  );
  const made = new Set(kept.flatMap(({ event }) => (event.kind === 'answer' ? [event.test] : [])));
  const cautions = [...made].flatMap((test) => tree.tests[test]?.cautions ?? []);
  return {
    tests,
    skips: job.skips.map(({ test, reason, as }) => ({
      test: testTitle(tree, test),
      reason,
      as: as === undefined ? null : resultTitle(tree, test, as),
    })),
    remedies,
    cautions: [...new Set([...tree.cautions, ...cautions, ...remedies.flatMap((remedy) => remedy.cautions)])],
  };
}

function sheetTest(
  tree: Tree,
  { at, technicianId, event }: StoredEvent,
  instruments: readonly ShopInstrument[],
): Omit<SheetTest, 'advised' | 'overtaken'>[] {
  if (event.kind !== 'answer' && event.kind !== 'correct') return [];
  const { test, result, reading } = event;
  return [
    {
      at,
      technicianId,
      test: testTitle(tree, test),
      result: resultTitle(tree, test, result),
      reading: readingWords(tree, event),
      typed: reading?.typed ?? '',
      band: bandWords(tree, test, result),
      instrument:
        reading === undefined
          ? ''
          : instrumentWords(reading, unitSymbol(tree.tests[test]?.reading?.unit), instruments),
      corrected: event.kind === 'correct',
    },
  ];
}

/** The answers, by their place among the events, to tests that were turned to on the planner's advice. */
function advisedAnswers(events: readonly JobEvent[]): ReadonlySet<number> {
  const answers = new Set<number>();
  let turnedTo: string | null = null;
  for (const [at, event] of events.entries()) {
    if (event.kind === 'turn-to') turnedTo = event.advised === true ? event.test : null;
    if (event.kind === 'turn-back') turnedTo = null;
    if (event.kind !== 'answer' || event.test !== turnedTo) continue;
    answers.add(at);
    turnedTo = null;
  }
  return answers;
}

function bandWords(tree: Tree, test: string, result: string): string {
  const band = tree.tests[test]?.results[result]?.band;
  const unit = tree.tests[test]?.reading?.unit;
  if (band === undefined || unit === undefined) return '';
  const words = (limit: number): string =>
    band.of === undefined
      ? readingWords(tree, { test, reading: { value: limit } })
      : `${String(limit)} × ${testTitle(tree, band.of)}`;
  if (band.from === undefined) return band.to === undefined ? 'any' : `below ${words(band.to)}`;
  return band.to === undefined ? `from ${words(band.from)}` : `${words(band.from)} to ${words(band.to)}`;
}

function instrumentWords(reading: Reading, unit: string, instruments: readonly ShopInstrument[]): string {
  const name = instruments.find(({ id }) => id === reading.instrument)?.name ?? 'Usual accuracy';
  return `${name}, ${accuracyWords(reading.accuracy, unit)}`;
}

function sheetRemedy(tree: Tree, remedy: RemedyTried, advised: boolean): SheetRemedy {
  const authored = remedy.finding === UNLISTED ? undefined : tree.findings[remedy.finding]?.remedy;
  return {
    title: remedy.what ?? findingTitle(tree, remedy.finding),
    state: remedy.state,
    reason: remedy.reason ?? '',
    advised,
    steps: authored?.steps ?? [],
    parts: authored?.parts ?? [],
    cautions: authored?.cautions ?? [],
    proofs: remedy.proofs.map((proof) => ({
      test: testTitle(tree, proof.test),
      result: resultTitle(tree, proof.test, proof.result),
      reading: readingWords(tree, proof),
    })),
  };
}
