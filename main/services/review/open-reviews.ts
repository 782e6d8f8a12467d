import type { JobSummary, ReviewChoices, ReviewJob, ReviewPage } from '../../contract/index.ts';
import type { FactReader, SymptomExpected } from '../../records/index.ts';
import {
  ALL_JOBS,
  expectedMinutes,
  jobsOf,
  reviewOf,
  waysBy,
  withTrees,
  type Facts,
  type ReviewFilter,
  type SliceJobs,
  type TreeFigures,
} from '../../../trees/review/index.ts';
import { choicesOf } from './choices.ts';
import { openKnownTrees, treeIn, type CurrentTree, type KnownTree } from './known-trees.ts';
import { namesOf } from './names.ts';
import type { JobsAsked, ReviewJobs } from './question.ts';

/** Answers from what is recorded at the moment of the question. `now` is in milliseconds since 1970 UTC. */
export interface Reviews {
  /** Null where it was told to stop. */
  figures(filter: ReviewFilter, now: number): ReviewPage | null;
  jobs(filter: ReviewFilter, now: number, asked: JobsAsked): ReviewJobs;
  /** What the current revisions expect, where that is not on record; null where it was told to stop. */
  expect(): readonly SymptomExpected[] | null;
  /** Works out beforehand what takes long and is the same for every filter. */
  warm(): void;
}

/**
 * Makes reviews of what a reader reads. Facts and what is known of the trees are kept from one question to the next.
 * `isStopped` is asked before each tree, the first question about which may take a second.
 */
export function openReviews(reader: FactReader, isStopped: () => boolean = () => false): Reviews {
  const known = openKnownTrees(reader);
  const choices = openChoices();
  const figuresOf = (trees: readonly KnownTree[], asked: TreesAsked): readonly TreeFigures[] | null => {
    const figures: TreeFigures[] = [];
    for (const one of trees) {
      if (isStopped()) return null;
      const symptoms = asked(one.tree.id);
      if (symptoms !== null) figures.push(one.figures(symptoms));
    }
    return figures;
  };
  const figures = (filter: ReviewFilter, now: number): ReviewPage | null => {
    const { facts, current, technicians, isComplete, invented } = momentOf(reader);
    const made = reviewOf(facts, filter, now);
    const { minutes } = made.figures;
    const trees = known(current);
    const ofTrees = figuresOf(trees, (tree) =>
      filter.tree === null || filter.tree === tree ? symptomsOf(minutes, tree) : null,
    );
    if (ofTrees === null) return null;
    return {
      review: withTrees(made, facts, ofTrees),
      names: namesOf(trees, technicians),
      choices: choices(facts, technicians),
      invented,
      complete: isComplete,
    };
  };
  return {
    figures,
    jobs: (filter, now, { slice, before, limit }) =>
      reader.atOneMoment(() => {
        const facts = reader.facts();
        const page = { before: before === null ? null : Number(before), limit: limit + 1 };
        const tree = slice.kind === 'branch' ? treeNamed(known(currentTrees(reader)), slice.tree) : null;
        const ways = slice.kind === 'branch' && tree !== null ? waysBy(tree, facts.ways, slice) : null;
        const { total, places, ...beside } = jobsOf(facts, filter, now, slice, page, ways);
        const shown = places.slice(0, limit);
        const next = places.length > limit ? String(shown.at(-1)) : null;
        const jobs = reader
          .jobsAt(shown)
          .map((job, at) => ({ ...job, ...besideJob(reader, job, beside, at) }));
        return { jobs, total, next };
      }),
    expect() {
      const all: SymptomExpected[] = [];
      for (const [revisionId, missing] of Map.groupBy(reader.unexpected(), (one) => one.revisionId)) {
        const tree = treeIn(reader.bytesOf(revisionId), revisionId);
        for (const { symptom } of missing) {
          if (isStopped()) return null;
          all.push({ revisionId, symptom, minutes: expectedMinutes(tree, symptom) });
        }
      }
      return all;
    },
    // A review of all jobs, of whatever moment, leaves behind what each needs: trees, ways walked and days counted.
    warm: () => void figures(ALL_JOBS, 0),
  };
}

/** What the review knows of a job besides: when its unit was back and with which job, and the remedies tried in vain. */
function besideJob(
  reader: FactReader,
  job: JobSummary,
  { backOn, failed }: Pick<SliceJobs, 'backOn' | 'failed'>,
  at: number,
): Omit<ReviewJob, keyof JobSummary> {
  const day = backOn[at] ?? 0;
  return {
    backOn: day === 0 ? null : day,
    backWith: day === 0 ? null : reader.nextJob(job),
    failed: failed[at] ?? 0,
  };
}

/** The symptoms of a tree that are asked about; null for a tree that is not. */
type TreesAsked = (tree: string) => readonly string[] | null;

function symptomsOf(
  all: readonly { readonly tree: string; readonly symptom: string }[],
  tree: string,
): readonly string[] {
  return all.filter((one) => one.tree === tree).map(({ symptom }) => symptom);
}

function momentOf(reader: FactReader) {
  return reader.atOneMoment(() => ({
    facts: reader.facts(),
    isComplete: reader.isComplete(),
    invented: reader.hasInvented(),
    technicians: reader.technicians(),
    current: currentTrees(reader),
  }));
}

function currentTrees(reader: FactReader): readonly CurrentTree[] {
  return reader.current().map((one) => ({ ...one, history: reader.historyOf(one.treeId) }));
}

function treeNamed(trees: readonly KnownTree[], id: string) {
  return trees.find(({ tree }) => tree.id === id)?.tree ?? null;
}

/** Choices are looked for again only where the facts changed; only a name may change without. */
function openChoices(): typeof choicesOf {
  let last: { readonly facts: Facts; readonly names: string; readonly choices: ReviewChoices } | null = null;
  return (facts, technicians) => {
    const names = JSON.stringify([...technicians]);
    if (last?.facts !== facts || last.names !== names)
      last = { facts, names, choices: choicesOf(facts, technicians) };
    return last.choices;
  };
}
