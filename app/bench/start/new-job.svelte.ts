import type { JobSummary, TreeSummary } from '../../../main/contract/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';

const SETTLE_MILLISECONDS = 250;

/** A new job while it is written: the unit, its tree, board and symptom; and whether the unit was here before. */
export class NewJobForm {
  readonly #session: Session;
  #typing: ReturnType<typeof setTimeout> | undefined;

  #family = $state('');
  #revisionId = $state('');
  #board = $state('');
  #symptom = $state('');
  serial = $state('');
  reference = $state('');
  visits = $state.raw<readonly JobSummary[]>([]);
  trouble = $state.raw<Trouble | null>(null);
  starting = $state(false);

  readonly families = $derived(
    this.#trees.map(({ family }) => family).filter((family, at, all) => all.indexOf(family) === at),
  );
  /** A choice of one is made already. */
  readonly family = $derived(this.families.length === 1 ? (this.families[0] ?? '') : this.#family);
  readonly trees = $derived(this.#trees.filter(({ family }) => family === this.family));
  readonly tree: TreeSummary | null = $derived(
    this.trees.length === 1
      ? (this.trees[0] ?? null)
      : (this.trees.find(({ revisionId }) => revisionId === this.#revisionId) ?? null),
  );
  readonly board = $derived(this.tree?.boards.length === 1 ? (this.tree.boards[0] ?? '') : this.#board);
  readonly symptom = $derived(
    this.tree?.symptoms.some(({ id }) => id === this.#symptom) === true ? this.#symptom : '',
  );
  /** What is still to be said, in words; '' when the job can start. */
  readonly missing = $derived.by(() => {
    if (this.#session.technician === null) return 'Say who is at work.';
    if (this.family === '') return 'Choose the unit’s family.';
    if (this.tree === null) return 'Choose the tree.';
    if (this.tree.boards.length > 0 && this.board === '') return 'Choose the board.';
    if (this.serial.trim() === '') return 'Enter the serial.';
    if (this.symptom === '') return 'Choose the symptom.';
    return '';
  });

  constructor(session: Session) {
    this.#session = session;
  }

  get #trees(): readonly TreeSummary[] {
    return this.#session.trees;
  }

  chooseFamily(family: string): void {
    this.#family = family;
    this.#revisionId = '';
    this.#board = '';
    this.lookUp();
  }

  chooseTree(revisionId: string): void {
    this.#revisionId = revisionId;
    this.#board = '';
  }

  chooseBoard(board: string): void {
    this.#board = board;
  }

  chooseSymptom(symptom: string): void {
    this.#symptom = symptom;
  }

  /** Asks for the unit's earlier visits when typing settles. */
  lookUp(): void {
    clearTimeout(this.#typing);
    this.#typing = setTimeout(() => void this.#readVisits(), SETTLE_MILLISECONDS);
  }

  /** Starts the job; its id, or null where it could not be recorded (`trouble` says why). */
  async start(): Promise<string | null> {
    const technicianId = this.#session.technician?.id;
    if (this.missing !== '' || this.tree === null || technicianId === undefined) return null;
    const { revisionId } = this.tree;
    const { symptom, board, serial, reference } = this;
    this.starting = true;
    const started = await this.#session.ask((client, signal) =>
      client.jobs.start({ revisionId, symptom, board, serial, reference, technicianId }, { signal }),
    );
    this.starting = false;
    this.trouble = started.ok ? null : started.trouble;
    return started.ok ? started.value.job.jobId : null;
  }

  stop(): void {
    clearTimeout(this.#typing);
  }

  async #readVisits(): Promise<void> {
    const { family } = this;
    const serial = this.serial.trim();
    if (family === '' || serial === '') {
      this.visits = [];
      return;
    }
    const visits = await this.#session.ask((client, signal) =>
      client.jobs.ofUnit({ family, serial }, { signal }),
    );
    if (serial === this.serial.trim() && visits.ok) this.visits = visits.value;
  }
}
