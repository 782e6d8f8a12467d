import type { Problem } from '../../../trees/document/index.ts';
import type { Change, DraftDocument } from '../../../trees/edit/index.ts';
import { keepAlike } from '../desk/alike.ts';
import type {
  Costed,
  FixCost,
  FromReckoner,
  IsolateCost,
  ShopFigures,
  SortedHistory,
  Traffic,
  Which,
} from './protocol.ts';
import type { ReckonerThread, StartReckoner } from './reckoner-thread.ts';

/** A draft as the reckoner is to mirror it. */
export interface Mirrored {
  readonly document: DraftDocument;
  /** The changes that take the last edit back; null where there is none. */
  readonly back: readonly Change[] | null;
}

/** What one of the trees set side by side costs, for one symptom. */
export interface SideCost {
  readonly symptom: string;
  readonly isolate: Costed<IsolateCost>;
  /** Follows later; null until it is there. */
  readonly fix: Costed<FixCost> | null;
}

/** Every symptom with what coming to its finding costs, in the tree's order. */
export type Totals = readonly (readonly [symptom: string, Costed<IsolateCost>])[];

/** The last cost of the tree as it was before errors came in its way. */
export interface KeptCost {
  readonly symptom: string;
  readonly cost: IsolateCost;
}

/**
 * Checks and costs of a draft beside its editing: a thread mirrors the document by the changes made and answers each version, the
 * newest only. Where the thread cannot be had the answers do not come, and {@link Reckoner.trouble} says so.
 */
export class Reckoner {
  readonly #start: StartReckoner;
  readonly #published: string | null;
  #thread: ReckonerThread | null = null;
  readonly #mirrored: () => Mirrored;
  #figures: ShopFigures;
  #sorted: readonly SortedHistory[] | null;
  #symptom: string | null;
  /** The thread mirrors the document; else it is sent whole with the next message. */
  #isOpen = false;
  #sent = $state(0);
  #checked = $state(0);
  #costed = $state(0);

  /** Errors and warnings of the last version that was checked, errors first. */
  problems = $state.raw<readonly Problem[]>([]);
  costs = $state.raw<Readonly<Partial<Record<Which, SideCost>>>>({});
  /** The last cost that there was; what the screen shows while errors keep the tree from being walked. */
  kept = $state.raw<KeptCost | null>(null);
  /** How many units pass the steps and branches, for the symptom shown; null until it is told. */
  traffic = $state.raw<Traffic | null>(null);
  /** The traffic that was told last, be it of a version that is no more: what has not changed since is not told again. */
  #told: Traffic | null = null;
  /** What each symptom costs. */
  totals = $state.raw<Totals>([]);
  /** The cost of the tree as it is waits for the shop's history sorted as that has it. */
  isUnsorted = $state(false);
  /** Asked for that history, each time that it is missing for a version. */
  onunsorted: () => void = () => undefined;
  /** What is wrong with the reckoner, in a sentence; empty where nothing is. */
  trouble = $state('');
  /** Milliseconds that the last checks and the last cost of the tree as it is took in the thread. */
  took = $state.raw({ checks: 0, cost: 0 });

  /** The document was checked at all: until then nothing is known of it. */
  readonly hasChecked = $derived(this.#checked > 0);
  /** The checks shown are of an earlier version than the document has. */
  readonly checksBehind = $derived(this.#checked < this.#sent);
  /** The cost shown is of an earlier version than the document has. */
  readonly costBehind = $derived(this.#costed < this.#sent);
  readonly errors = $derived(this.problems.filter(({ severity }) => severity === 'error'));
  readonly warnings = $derived(this.problems.filter(({ severity }) => severity === 'warning'));

  /** `mirrored` gives the document as it is now, for when it is to be sent whole. */
  constructor(
    start: StartReckoner,
    mirrored: () => Mirrored,
    given: {
      readonly published: string | null;
      readonly figures: ShopFigures;
      /** The history in the sortings that there are; where left out, all trees go by that of the figures. */
      readonly sorted?: readonly SortedHistory[];
      readonly symptom: string | null;
    },
  ) {
    this.#start = start;
    this.#mirrored = mirrored;
    this.#published = given.published;
    this.#figures = given.figures;
    this.#sorted = given.sorted ?? null;
    this.#symptom = given.symptom;
    this.#open();
  }

  /** Tells what an edit, an undo or a redo has changed; the document as it is now is `mirrored`'s already. */
  edited(changes: readonly Change[]): void {
    if (!this.#isOpen) return this.#open();
    const { back } = this.#mirrored();
    this.#send((version) => ({ kind: 'edit', version, changes, back }));
  }

  /** Turns the cost to another symptom. */
  show(symptom: string | null): void {
    if (symptom === this.#symptom) return;
    this.#symptom = symptom;
    if (this.#isOpen) this.#send((version) => ({ kind: 'show', version, symptom }));
  }

  /** Tells the shop's history and hourly rate, where they are others now. */
  reckonWith(figures: ShopFigures): void {
    this.#figures = figures;
    if (this.#isOpen) this.#send((version) => ({ kind: 'figures', version, figures }));
  }

  /** Tells the history in one more sorting. */
  sortedAs(sorted: SortedHistory): void {
    this.#sorted = [...(this.#sorted ?? []), sorted];
    if (this.#isOpen) this.#send((version) => ({ kind: 'sorted', version, sorted }));
  }

  /** Ends the thread; nothing more is answered. */
  stop(): void {
    this.#thread?.stop();
    this.#thread = null;
    this.#isOpen = false;
  }

  #open(): void {
    const { document, back } = this.#mirrored();
    this.#isOpen = true;
    this.#send((version) => ({
      kind: 'open',
      version,
      text: JSON.stringify(document),
      back,
      published: this.#published,
      figures: this.#figures,
      sorted: this.#sorted,
      symptom: this.#symptom,
    }));
  }

  #send(message: (version: number) => Parameters<ReckonerThread['send']>[0]): void {
    const thread = this.#running();
    this.#sent += 1;
    thread?.send(message(this.#sent));
  }

  #running(): ReckonerThread | null {
    if (this.#thread !== null || this.trouble !== '') return this.#thread;
    try {
      this.#thread = this.#start(
        (answer) => this.#heard(answer),
        (reason) => this.#gone(reason),
      );
    } catch (error) {
      this.#gone(error instanceof Error ? error.message : String(error));
    }
    return this.#thread;
  }

  #heard(answer: FromReckoner): void {
    if (answer.kind === 'traffic') this.#told = answer.traffic ?? this.#told;
    if (answer.version !== this.#sent && answer.kind !== 'checks') return;
    switch (answer.kind) {
      case 'checks':
        // What has not changed is the same problem still, so that nothing is shown anew for it.
        this.problems = keepAlike(this.problems, answer.problems);
        this.trouble = '';
        this.#checked = answer.version;
        // Without a symptom no cost follows.
        if (this.#symptom === null) this.#costed = answer.version;
        this.took = { ...this.took, checks: answer.milliseconds };
        return;
      case 'cost':
        return this.#heardCost(answer);
      case 'traffic':
        this.traffic = this.#told;
        return;
      case 'unsorted':
        return this.#heardUnsorted(answer.which);
      case 'totals':
        this.totals = answer.totals;
        return;
      case 'fix': {
        const side = this.costs[answer.which];
        if (side?.symptom === answer.symptom)
          this.costs = { ...this.costs, [answer.which]: { ...side, fix: answer.costed } };
        return;
      }
      case 'failed':
        // The next edit sends the document whole.
        this.#isOpen = false;
        this.trouble = `The checks and costs could not be reckoned: ${answer.message}.`;
    }
  }

  #heardCost({ which, symptom, costed, milliseconds }: FromReckoner & { kind: 'cost' }): void {
    const side = { symptom, isolate: costed, fix: null };
    if (which !== 'now') {
      this.costs = { ...this.costs, [which]: side };
      return;
    }
    this.costs = { ...this.#othersOf(symptom), now: side };
    this.isUnsorted = false;
    this.#costed = this.#sent;
    this.took = { ...this.took, cost: milliseconds };
    if (costed.ok) this.kept = { symptom, cost: costed.cost };
  }

  /** What was said of another version is not right for this one, and goes. */
  #heardUnsorted(which: Which): void {
    const { now, before, published } = this.costs;
    const costs = { now, before, published, [which]: undefined };
    this.costs = Object.fromEntries(Object.entries(costs).filter(([, side]) => side !== undefined));
    if (which !== 'now') return;
    this.totals = [];
    this.isUnsorted = true;
    this.onunsorted();
  }

  /** What the trees beside this one cost, as far as it is known; their costs of this version follow. */
  #othersOf(symptom: string): Partial<Record<Which, SideCost>> {
    const { before, published } = this.costs;
    const hasBefore = this.#mirrored().back !== null && before?.symptom === symptom;
    return {
      ...(hasBefore && { before }),
      ...(published?.symptom === symptom && { published }),
    };
  }

  #gone(reason: string): void {
    this.stop();
    this.trouble = `Checks and costs are not available: ${reason}. Editing goes on without them.`;
  }
}
