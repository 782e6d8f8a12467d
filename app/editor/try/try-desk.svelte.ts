import type { History } from '../../../trees/belief/index.ts';
import { compileChart } from '../../../trees/chart/index.ts';
import { readAndCheck, type Problem } from '../../../trees/document/index.ts';
import { OpenJob, type ShelvedTree } from '../../bench/index.ts';
import { draftShelf, type Pictures } from './draft-shelf.ts';
import { memoryKeeper, TRIED } from './memory-keeper.ts';

/** A symptom that can be tried. */
export interface TriedSymptom {
  readonly id: string;
  readonly title: string;
}

/** A draft being tried: walked as at the bench, and recorded nowhere. */
export class TryDesk {
  readonly #history: () => History;
  readonly #pictures: Pictures;
  readonly draft: ShelvedTree | null;
  /** What stops the draft from being tried; empty where it can be. */
  readonly errors: readonly Problem[];
  readonly symptoms: readonly TriedSymptom[];
  /** The job being walked; null until a symptom is chosen. */
  open = $state.raw<OpenJob | null>(null);
  symptom = $state('');

  /** `history` is asked at each start: what the shop has seen may still be on its way when the page opens. */
  constructor(text: string, history: () => History, pictures: Pictures) {
    const { tree, errors } = readAndCheck(text);
    this.#history = history;
    this.#pictures = pictures;
    this.errors = errors;
    this.draft =
      tree === null ? null : { revisionId: TRIED, checksum: '', text, tree, chart: compileChart(tree) };
    this.symptoms = Object.entries(tree?.symptoms ?? {}).map(([id, { title }]) => ({ id, title }));
  }

  /** Begins at a symptom; what was tried before is forgotten. */
  async start(symptom: string): Promise<void> {
    if (this.draft === null) return;
    const shelf = draftShelf(this.draft, this.#history(), this.#pictures);
    const keeper = memoryKeeper(this.draft.chart, symptom);
    const open = new OpenJob(TRIED, keeper, shelf);
    this.symptom = symptom;
    this.open = open;
    await open.read();
  }

  /** Begins again at the same symptom. */
  async startOver(): Promise<void> {
    if (this.symptom !== '') await this.start(this.symptom);
  }

  /** Puts the walk away; another symptom is to be chosen. */
  chooseAnother(): void {
    this.open = null;
    this.symptom = '';
  }
}
