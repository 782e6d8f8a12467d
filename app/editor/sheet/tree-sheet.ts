import { own, type Tree } from '../../../trees/document/index.ts';
import { minutesWords, priceWords } from '../../parts/index.ts';
import { INSTRUMENT_WORDS } from '../../shell/index.ts';
import { limitsWords } from './limits-words.ts';
import { numberedPaths, type NumberedPath } from './numbered-paths.ts';
import {
  findingNumber,
  firstResult,
  goWords,
  listed,
  needsWords,
  numbered,
  otherwiseWords,
  resultWords,
  testNumber,
} from './sheet-words.ts';

/** A way on from a step: by which result, within what limits, and where it leads on the sheet. */
export interface SheetWay {
  readonly result: string;
  readonly limits: string;
  readonly to: string;
}

export interface SheetStep {
  readonly number: string;
  readonly test: string;
  /** The test's number in the list of tests, `T3`; '' where there is no such test. */
  readonly testNumber: string;
  readonly instrument: string;
  readonly needs: string;
  /** What can hurt stands with the test, and is to be read there first. */
  readonly cautioned: boolean;
  readonly ways: readonly SheetWay[];
}

export interface SheetPath {
  readonly id: string;
  /** The letter that its steps are called by on other paths. */
  readonly letter: string;
  readonly title: string;
  readonly steps: readonly SheetStep[];
  /** Steps that nothing on the path leads to. */
  readonly unreached: boolean;
}

export interface SheetTest {
  readonly id: string;
  readonly number: string;
  readonly title: string;
  readonly ask: string;
  readonly about: string;
  readonly cautions: readonly string[];
  readonly results: readonly { readonly title: string; readonly limits: string; readonly sound: boolean }[];
  readonly picture: Tree['tests'][string]['picture'];
}

export interface SheetFinding {
  readonly id: string;
  readonly number: string;
  readonly title: string;
  readonly because: string;
  readonly about: string;
  readonly cautions: readonly string[];
  readonly steps: readonly string[];
  readonly parts: readonly string[];
  readonly proof: readonly string[];
  readonly disturbs: readonly string[];
  readonly otherwise: string;
}

export interface SheetAxis {
  readonly id: string;
  readonly title: string;
  readonly states: readonly string[];
  readonly start: string;
  readonly changes: readonly {
    readonly way: string;
    readonly say: string;
    readonly minutes: string;
    readonly cautions: readonly string[];
  }[];
}

/** A tree laid out for paper: everything numbered, so that a step can say where to go on. */
export interface TreeSheet {
  readonly axes: readonly SheetAxis[];
  readonly interlocks: readonly { readonly bars: string; readonly until: string; readonly because: string }[];
  readonly paths: readonly SheetPath[];
  readonly tests: readonly SheetTest[];
  readonly findings: readonly SheetFinding[];
}

/** Lays a tree out for paper. Takes drafts as well: what leads nowhere is said to. */
export function treeSheet(tree: Tree): TreeSheet {
  const paths = numberedPaths(tree);
  return {
    axes: Object.entries(tree.bench).map(([id, axis]) => sheetAxis(id, axis)),
    interlocks: tree.interlocks.map(({ change, until, because }) => ({
      bars: needsWords(tree, change),
      until: Object.entries(until)
        .map(([test, results]) => `${numbered(tree, test)}: ${resultWords(tree, test, results)}`)
        .join('; '),
      because,
    })),
    paths: paths.map((path) => sheetPath(tree, paths, path)),
    tests: Object.entries(tree.tests).map(([id, test]) => sheetTest(tree, id, test)),
    findings: Object.entries(tree.findings).map(([id, finding]) => sheetFinding(tree, paths, id, finding)),
  };
}

function sheetAxis(id: string, { title, states, start, changes }: Tree['bench'][string]): SheetAxis {
  const stateTitle = (state: string): string => own(states, state)?.title ?? state;
  return {
    id,
    title,
    states: Object.values(states).map((state) => state.title),
    start: stateTitle(start),
    changes: changes.map(({ from, to, say, minutes, cautions }) => ({
      way: `${stateTitle(from)} → ${stateTitle(to)}`,
      say,
      minutes: minutesWords(minutes),
      cautions,
    })),
  };
}

function sheetPath(tree: Tree, paths: readonly NumberedPath[], path: NumberedPath): SheetPath {
  const { symptom, letter, steps, unreached } = path;
  return {
    id: symptom,
    letter,
    title: tree.symptoms[symptom]?.title ?? symptom,
    unreached,
    steps: [...steps].map(([id, number]) => {
      const step = tree.symptoms[symptom]?.steps[id];
      const test = own(tree.tests, step?.test ?? '');
      const goes = Object.entries(step?.then ?? {});
      return {
        number: String(number),
        test: test?.title ?? step?.test ?? id,
        testNumber: testNumber(tree, step?.test ?? ''),
        instrument: test === undefined ? '' : INSTRUMENT_WORDS[test.instrument],
        needs: needsWords(tree, test?.needs ?? {}),
        cautioned: (test?.cautions.length ?? 0) > 0,
        ways: goes.map(([result, { go }]) => ({
          result: own(test?.results ?? {}, result)?.title ?? result,
          limits: limitsWords(tree, step?.test ?? '', result),
          to: goWords(tree, paths, go, symptom),
        })),
      };
    }),
  };
}

function sheetTest(tree: Tree, id: string, test: Tree['tests'][string]): SheetTest {
  const needs = needsWords(tree, test.needs);
  return {
    id,
    number: testNumber(tree, id),
    title: test.title,
    ask: test.ask,
    about: listed([INSTRUMENT_WORDS[test.instrument], needs, minutesWords(test.minutes)]),
    cautions: test.cautions,
    results: Object.entries(test.results).map(([result, { title }], index) => ({
      title,
      limits: limitsWords(tree, id, result),
      sound: index === 0,
    })),
    picture: test.picture,
  };
}

function sheetFinding(
  tree: Tree,
  paths: readonly NumberedPath[],
  id: string,
  { title, because, remedy, prove, otherwise }: Tree['findings'][string],
): SheetFinding {
  return {
    id,
    number: findingNumber(tree, id),
    title,
    because,
    about: listed([needsWords(tree, remedy.needs), minutesWords(remedy.minutes)]),
    cautions: remedy.cautions,
    steps: remedy.steps,
    parts: remedy.parts.map(({ name, price }) => `${name} (${priceWords(price)})`),
    proof: prove.map((test) => `${numbered(tree, test)}: ${firstResult(tree, test)}`),
    disturbs: remedy.disturbs.map((test) => numbered(tree, test)),
    otherwise: otherwiseWords(tree, paths, otherwise),
  };
}
