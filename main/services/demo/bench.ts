import { compileFaultModel, type FaultModel } from '../../../trees/belief/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import type { Records, WholeJob } from '../../records/index.ts';
import { likeliestBeside } from '../shown-beside.ts';
import { openAdviser } from './advice.ts';
import type { Random } from './random.ts';
import { openSerials } from './serials.ts';
import { openStands, type Stands } from './stands.ts';
import { HANDS, STORY, type Hand } from './story.ts';
import { unitDrawer, type UnitUnderTest } from './unit-under-test.ts';
import { bookVisits, DAY } from './visits.ts';
import { walkJob } from './walk-job.ts';

/** The moments of all visits, and the history's first and last. */
export interface Span {
  readonly times: Float64Array;
  readonly from: number;
  readonly until: number;
}

/** A tree revision that units are walked down. */
interface Known {
  readonly revisionId: string;
  readonly tree: Tree;
  readonly drawer: ReturnType<typeof unitDrawer>;
  readonly stands: Stands;
}

/** A unit on the bench; one that was here before comes with what it had then. */
interface Visitor {
  readonly known: Known;
  readonly serial: string;
  readonly board: string;
  readonly unit: Pick<UnitUnderTest, 'symptom' | 'finding'>;
}

/** Jobs at the end that are still on the bench. */
const LEFT_OPEN = 4;

/** The invented bench: the jobs of its days, one after another. */
export function openBench(records: Records, random: Random, { times, from, until }: Span) {
  const trees = records.trees.list().map(({ revisionId }): Known => {
    const { tree } = records.charts.of(revisionId);
    return { revisionId, tree, drawer: unitDrawer(tree, random), stands: openStands(tree) };
  });
  const adviser = openAdviser(Math.min(60 + Math.floor(times.length / 100), 600));
  const bookings = bookVisits<Visitor>(times);
  const serialOf = openSerials(random);
  let hired: readonly (Hand & { readonly id: string })[] = [];
  let models = new Map<Tree, FaultModel>();

  /** The fault model with the history of this morning. */
  const modelOf = (tree: Tree): FaultModel => {
    const model = models.get(tree) ?? compileFaultModel(tree, records.historyOf(tree.id));
    models.set(tree, model);
    return model;
  };
  const visitor = (visit: number, passed: number): Visitor & { readonly unit: UnitUnderTest } => {
    const former = bookings.take(visit);
    const known = former?.known ?? random.choose(trees);
    const unit = known.drawer.draw(passed, former?.unit);
    if (former !== undefined) return { ...former, unit };
    const { boards } = known.tree.unit;
    const board = boards.length === 0 ? '' : random.choose(boards);
    return { known, unit, serial: serialOf(known.tree.id), board };
  };
  const backAt = (closedAt: number, visitor: Visitor, care: number): number | null =>
    random.happens(STORY.comesBack / care ** 4)
      ? bookings.book(closedAt + daysUntilBack(random) * DAY, visitor)
      : null;
  const jobOf = (visit: number): WholeJob => {
    const openedAt = times[visit] ?? until;
    const passed = (openedAt - from) / (until - from);
    const hand = random.choose(hired);
    const comes = visitor(visit, passed);
    const { known, unit, serial, board } = comes;
    const { revisionId, tree, stands } = known;
    const [technicianId, care] = [hand.id, hand.care(passed)];
    const stopAfter = visit < times.length - LEFT_OPEN ? Infinity : 2 + Math.floor(random.next() * 6);
    const walking = { tree, unit, random, care, technicianId, openedAt, stopAfter };
    const { events, after, remedy } = walkJob(stands, adviser, walking);
    const closedAt = events.at(-1)?.at ?? openedAt;
    const findings = remedy === null ? [] : likeliestBeside(modelOf(tree), remedy.job);
    const { symptom } = unit;
    return {
      job: {
        ...{ revisionId, treeId: tree.id, family: tree.unit.family, board, serial, technicianId },
        ...{ symptom, symptomTitle: tree.symptoms[symptom]?.title ?? symptom },
        ...{ reference: `D-${String(visit + 1).padStart(5, '0')}`, invented: true },
      },
      ...{ openedAt, events, after, tree },
      shown: remedy === null ? null : { seq: remedy.seq, findings },
      backAt: after.outcome === 'fixed' ? backAt(closedAt, comes, care) : null,
    };
  };

  return {
    /** Takes on those who work here, known ones again. */
    hire(at: number): void {
      hired = HANDS.map((hand) => ({ ...hand, id: hire(records, hand.name, at) }));
    },
    /** The jobs of the visits from `first` to before `end`, which are all of one day. */
    day(first: number, end: number): readonly WholeJob[] {
      models = new Map();
      return Array.from({ length: end - first }, (_, at) => jobOf(first + at));
    },
  };
}

function daysUntilBack(random: Random): number {
  const { least, most, skew } = STORY.backAfterDays;
  return least + (most - least) * random.next() ** skew;
}

function hire(records: Records, name: string, at: number): string {
  const known = records.technicians
    .list()
    .find((technician) => technician.name === name && !technician.retired);
  const technician = known ?? records.technicians.add(name, at);
  if (technician === null) throw new Error(`technician-taken: ${name}`);
  return technician.id;
}
