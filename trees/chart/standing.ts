import type { Change } from '../document/index.ts';
import { actNow } from './act.ts';
import { allowedKinds } from './allows.ts';
import type { JobEventKind, Outcome } from './event.ts';
import { isOpen } from './interlock.ts';
import type { JobState } from './job.ts';
import { placeOf } from './place.ts';
import type { Walk } from './walk.ts';

export interface StepRef {
  readonly symptom: string;
  readonly step: string;
}

/**
 * Why the course is off the path: the symptom has none, it has come to its end, or its step's test was skipped with nothing
 * assumed in its place and no step that follows has an answer.
 */
export type AdriftBecause = 'no-path' | 'path-ended' | 'skipped';

/** Why a test is asked now. */
export type Purpose =
  | { readonly kind: 'path'; readonly step: StepRef }
  | { readonly kind: 'aside' }
  | { readonly kind: 'interlock'; readonly interlock: number; readonly wanted: Wanted }
  | { readonly kind: 'reference'; readonly wanted: Wanted }
  | { readonly kind: 'proof'; readonly finding: string };

/** What the changeovers and interlock tests on the way are for; `safety` leaves a bench state that an interlock now bars. */
export type Wanted =
  | { readonly kind: 'test'; readonly test: string }
  | { readonly kind: 'remedy'; readonly finding: string }
  | { readonly kind: 'safety'; readonly interlock: number };

/** The one thing to do now. */
export type Act =
  | {
      readonly kind: 'change';
      readonly axis: string;
      readonly change: Change;
      /** Changeovers still to come after this one, in order. */
      readonly after: readonly { readonly axis: string; readonly change: Change }[];
      readonly wanted: Wanted;
    }
  | { readonly kind: 'test'; readonly test: string; readonly purpose: Purpose }
  | { readonly kind: 'finding'; readonly finding: string }
  | { readonly kind: 'remedy'; readonly finding: string }
  | { readonly kind: 'contradiction'; readonly test: string }
  /** The way on is barred: `interlock` does not open, its test having given a result that is not allowed. */
  | { readonly kind: 'barred'; readonly interlock: number; readonly wanted: Wanted }
  /** The path has no more to say: choose a test out of order, a finding's remedy, or close. */
  | { readonly kind: 'adrift'; readonly because: AdriftBecause }
  | { readonly kind: 'mended'; readonly finding: string }
  | { readonly kind: 'closed'; readonly outcome: Outcome };

/** Where a job stands: all that a screen, a sheet or the command line shows of the chart. */
export interface Standing {
  readonly act: Act;
  /** The step the course is at, if it is on the path. */
  readonly step: StepRef | null;
  /** Bench state: axis id to state id. */
  readonly bench: Readonly<Record<string, string>>;
  /** Open or barred, for each of the tree's interlocks in order. */
  readonly interlocks: readonly ('open' | 'barred')[];
  readonly job: JobState;
  /** Kinds of event the chart takes here. */
  readonly allows: ReadonlySet<JobEventKind>;
}

/** An event that the chart does not take here: why, and what can be done instead. */
export interface Refusal {
  readonly code: string;
  readonly message: string;
  readonly help: string;
}

/** Where a walk stands: the one act to do now, and what else the chart takes. */
export function standing({ chart, snapshot, trail }: Walk): Standing {
  const { tree } = chart;
  const at = snapshot.context;
  const place = placeOf(tree, snapshot.value);
  return {
    act: actNow(tree, at, place),
    step: place.kind === 'step' ? place.step : null,
    bench: at.bench,
    interlocks: tree.interlocks.map((interlock) => (isOpen(interlock, at.job) ? 'open' : 'barred')),
    job: at.job,
    allows: allowedKinds(tree, at, place, trail.length > 0),
  };
}
