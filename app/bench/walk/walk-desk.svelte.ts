import type { Answer, JobEvent, Outcome, Purpose } from '../../../trees/chart/index.ts';
import { UNLISTED } from '../../../trees/document/index.ts';
import type { PlannedAct, Reasoned } from '../../../trees/plan/index.ts';
import { awayFromStart } from '../job/away-from-start.ts';
import { nothingFits } from '../job/nothing-fits.ts';
import type { OpenJob } from '../job/open-job.svelte.ts';
import { AdviceDesk } from '../planner/advice-desk.svelte.ts';
import { questionAt } from '../planner/planner-question.ts';
import type { Planner } from '../planner/planner.svelte.ts';

type JobEventOf<K extends JobEvent['kind']> = JobEvent & { readonly kind: K };

/** What may lie over the walk. */
export type WalkDialog =
  | { readonly kind: 'skip'; readonly test: string }
  | { readonly kind: 'other-test' }
  | { readonly kind: 'other-finding' }
  | { readonly kind: 'close'; readonly outcome: Outcome | null }
  | { readonly kind: 'correct'; readonly test: string }
  | { readonly kind: 'give-up' }
  | { readonly kind: 'cautions' }
  | { readonly kind: 'picture'; readonly test: string };

/** The walk of one job in one pane: which dialog is open, and what each key does now. */
export class WalkDesk {
  readonly open: OpenJob;
  dialog = $state.raw<WalkDialog | null>(null);
  /** The first screen, with the tree's cautions, has been read. Only a job without any event shows it. */
  #begun = $state(false);

  readonly advice: AdviceDesk;

  /** `rate` gives the shop's hourly rate, null where parts do not count as minutes. */
  constructor(open: OpenJob, planner: Planner, rate: () => number | null) {
    this.open = open;
    this.advice = new AdviceDesk(planner, () => (this.before ? null : questionAt(open, rate())));
  }

  readonly before = $derived.by(() => this.open.job?.events.length === 0 && !this.#begun);

  /** What to say and to offer where something not in the tree leads; null where it does not. */
  readonly misfit = $derived.by(() => {
    const { model, standing, evidence, belief } = this.open;
    return model === null || standing === null || belief === null
      ? null
      : nothingFits(model, standing, evidence, belief);
  });

  /** Off the path the planner leads: what it would do is the act to take now, or will be once it is there. */
  get isPlanned(): boolean {
    return (
      this.open.standing?.act.kind === 'adrift' && (this.advice.pending || this.advice.proposal !== null)
    );
  }

  /**
   * What the planner would do beside the act to take now: instead of the tree's, or where the way is barred. Nothing that
   * follows a bar is done by Enter alone.
   */
  get besides(): Reasoned | null {
    return this.open.standing?.act.kind === 'adrift' ? null : (this.advice.instead ?? this.advice.proposal);
  }

  begin(): void {
    this.#begun = true;
  }

  show(dialog: WalkDialog): void {
    this.dialog = dialog;
  }

  leave(): void {
    this.dialog = null;
  }

  /** Does the act; an open dialog stays until it is recorded, with what was typed in it. */
  async act(event: JobEvent): Promise<void> {
    if (await this.open.act(event)) this.dialog = null;
  }

  /** Sends what was not recorded once more; the dialog it came from is then left. */
  async again(): Promise<void> {
    if (await this.open.again()) this.dialog = null;
  }

  /** Does what the planner would do, recorded as its advice. Cautions stand on the act that this turns to. */
  take({ kind, id }: PlannedAct): void {
    if (kind === 'test') void this.act({ kind: 'turn-to', test: id, advised: true });
    else if (kind === 'remedy') void this.act({ kind: 'start-remedy', finding: id, advised: true });
    else this.show({ kind: 'close', outcome: 'passed-on' });
  }

  /** Whether the chart takes what the planner would do. */
  takes({ kind }: PlannedAct): boolean {
    return this.open.allows(TAKEN[kind]);
  }

  /** Does what `key` stands for now; false where it stands for nothing. */
  press(key: string): boolean {
    const doing = this.before ? this.#beforeKey(key) : (this.#digit(key) ?? this.#named(key));
    if (doing === null) return false;
    doing();
    return true;
  }

  #beforeKey(key: string): (() => void) | null {
    return key === 'Enter' ? () => this.begin() : null;
  }

  #digit(key: string): (() => void) | null {
    if (!/^[1-9]$/.test(key)) return null;
    const event = this.#numbered[Number(key) - 1];
    return event === undefined ? null : () => void this.act(event);
  }

  /** What the number keys stand for, in order. */
  get #numbered(): readonly JobEvent[] {
    const act = this.open.standing?.act;
    if (act?.kind === 'test') return this.#answers(act.test);
    if (act?.kind !== 'contradiction') return [];
    const settling = this.settlements.map(
      ({ answer }) => ({ kind: 'settle', result: answer.result }) as const,
    );
    return [...settling, { kind: 'settle', result: null }];
  }

  #answers(id: string): readonly JobEvent[] {
    const test = this.open.shelved?.tree.tests[id];
    if (test === undefined || test.reading !== undefined) return [];
    return Object.keys(test.results).map((result) => ({ kind: 'answer', test: id, result }));
  }

  /** The two answers that contradict each other, the earlier first; none where nothing does. */
  get settlements(): readonly { readonly remark: string; readonly answer: Answer }[] {
    const job = this.open.standing?.job;
    const later = job?.contradiction;
    if (job === undefined || later === undefined) return [];
    const earlier = job.answers.filter(({ test }) => test === later.test);
    return [
      ...earlier.map((answer) => ({ remark: 'given first', answer })),
      { remark: 'given then', answer: later },
    ];
  }

  #named(key: string): (() => void) | null {
    switch (key) {
      case 'Enter':
        return this.#main();
      case 's':
        return this.skippable === null ? null : this.#shower({ kind: 'skip', test: this.skippable });
      case 't':
        return this.open.allows('turn-to') ? this.#shower({ kind: 'other-test' }) : null;
      case 'f':
        return this.open.allows('start-remedy') ? this.#shower({ kind: 'other-finding' }) : null;
      case 'b':
        return this.open.allows('turn-back') ? () => void this.act({ kind: 'turn-back' }) : null;
      case 'g':
        return this.open.allows('give-up-remedy') ? this.#shower({ kind: 'give-up' }) : null;
      case 'x':
        return this.open.allows('close') ? this.#shower({ kind: 'close', outcome: null }) : null;
      case 'm':
        return this.#repeat();
      case 'o':
        return this.misfit !== null && this.open.allows('close')
          ? this.#shower({ kind: 'close', outcome: 'passed-on' })
          : null;
      case 'i':
        return this.#planned(this.besides);
      case 'c':
        return this.#shower({ kind: 'cautions' });
      case 'p':
        return this.#picture();
      case 'Ctrl+z':
        return this.open.allows('take-back') ? () => void this.act({ kind: 'take-back' }) : null;
      case 'Ctrl+Shift+z':
        return this.open.trail.again.length > 0 ? () => void this.open.redo() : null;
      default:
        return null;
    }
  }

  /** The test of the act now, where it may be passed over: an interlock's and a proof's may not. */
  get skippable(): string | null {
    const act = this.open.standing?.act;
    if (act?.kind !== 'test' || !this.open.allows('skip')) return null;
    return SKIPPABLE[act.purpose.kind] ? act.test : null;
  }

  /**
   * For a remedy of something not in the tree, which names no bench state it needs: the changeover out of a state that an
   * interlock guards, such as power. It can be left out, but it is the act to take now.
   */
  get makeSafe(): JobEventOf<'change'> | null {
    const { standing, shelved } = this.open;
    if (standing?.act.kind !== 'remedy' || standing.act.finding !== UNLISTED || shelved === null) return null;
    const away = awayFromStart(shelved.tree, standing).find(({ back }) => back !== undefined);
    return away === undefined ? null : { kind: 'change', axis: away.axis, to: away.start };
  }

  #main(): (() => void) | null {
    const act = this.open.standing?.act;
    switch (act?.kind) {
      case 'change':
        return () => void this.act({ kind: 'change', axis: act.axis, to: act.change.to });
      case 'finding':
        return () => void this.act({ kind: 'start-remedy', finding: act.finding });
      case 'remedy':
        return () => void this.act(this.makeSafe ?? { kind: 'remedy-done' });
      case 'mended':
        return () => void this.act({ kind: 'close', outcome: 'fixed' });
      case 'adrift':
        return this.#planned(this.advice.proposal);
      default:
        return null;
    }
  }

  #planned(planned: PlannedAct | null): (() => void) | null {
    return planned === null || !this.takes(planned) ? null : () => this.take(planned);
  }

  /** Back to the test that fits worst. */
  #repeat(): (() => void) | null {
    const { worst = null, asked = true } = this.misfit ?? {};
    if (worst === null || asked || !this.open.allows('turn-to')) return null;
    return () => void this.act({ kind: 'turn-to', test: worst.test });
  }

  #picture(): (() => void) | null {
    const act = this.open.standing?.act;
    if (act?.kind !== 'test' || this.open.shelved?.tree.tests[act.test]?.picture === undefined) return null;
    return this.#shower({ kind: 'picture', test: act.test });
  }

  #shower(dialog: WalkDialog): () => void {
    return () => this.show(dialog);
  }
}

const TAKEN = { test: 'turn-to', remedy: 'start-remedy', 'pass-on': 'close' } as const;

const SKIPPABLE: Readonly<Record<Purpose['kind'], boolean>> = {
  path: true,
  aside: true,
  reference: true,
  interlock: false,
  proof: false,
};
