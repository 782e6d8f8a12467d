import { treeOf, type TreeDocument } from './trees.ts';
import type { Tree } from '../../trees/document/index.ts';

/**
 * A small tree of an invented player whose path starts with a slow test that settles little, so that the planner would do
 * otherwise; `tap` is on no path; and the symptom `stops` has no path at all.
 */
export function dunlinDocument(): TreeDocument {
  return {
    format: 'ohmward-tree/1',
    id: 'dunlin',
    title: 'Dunlin DL-2 pocket player',
    unit: { family: 'Dunlin DL-2' },
    cautions: [
      'Follow the maker’s instructions and local rules; where they differ from this tree, they win.',
    ],
    defaults: { reliability: 0.99, unlisted: 0.01 },
    bench: {
      shell: {
        title: 'Shell',
        start: 'closed',
        states: { closed: { title: 'Closed' }, open: { title: 'Open' } },
        changes: [
          { from: 'closed', to: 'open', minutes: 2, say: 'Take the four screws out and lift the back off.' },
          { from: 'open', to: 'closed', minutes: 1.5, say: 'Put the back on and the four screws in.' },
        ],
      },
    },
    tests: {
      'row-look': test('Row look', 4, 'open', ['Clean', 'Bridged']),
      sound: test('Sound', 3, 'closed', ['Heard', 'Silent', 'Crackles']),
      clock: test('Clock', 2.5, 'closed', ['Kept', 'Lost']),
      tap: test('Tap test', 0.5, 'closed', ['Steady', 'Comes and goes']),
    },
    findings: {
      'ribbon-bridge': finding('Ribbon bridge', 8, ['sound'], {
        'row-look': 'r2',
        sound: 'r2',
        clock: 'r1',
        tap: 'r1',
      }),
      'clock-missing': finding('Clock missing', 12, ['clock'], {
        'row-look': 'r1',
        sound: 'r1',
        clock: 'r2',
        tap: 'r1',
      }),
      'speaker-open': finding('Speaker open', 10, ['sound'], {
        'row-look': 'r1',
        sound: 'r2',
        clock: 'r1',
        tap: 'r1',
      }),
      'joint-cracked': finding('Joint cracked', 9, ['tap', 'sound'], {
        'row-look': 'r1',
        sound: 'r3',
        clock: 'r1',
        tap: 'r2',
      }),
      'jack-worn': finding('Jack worn', 7, ['tap', 'sound'], {
        'row-look': 'r1',
        sound: 'r1',
        clock: 'r1',
        tap: 'r2',
      }),
    },
    symptoms: {
      faint: {
        title: 'Plays faintly',
        first: 'row',
        weights: {
          'ribbon-bridge': 1,
          'clock-missing': 6,
          'speaker-open': 5,
          'joint-cracked': 4,
          'jack-worn': 4,
        },
        steps: {
          row: {
            test: 'row-look',
            then: { r1: { go: 'listen', weight: 9 }, r2: { go: 'finding:ribbon-bridge', weight: 1 } },
          },
          listen: {
            test: 'sound',
            then: {
              r1: { go: 'time', weight: 3 },
              r2: { go: 'finding:speaker-open', weight: 2 },
              r3: { go: 'finding:joint-cracked', weight: 1 },
            },
          },
          time: {
            test: 'clock',
            then: { r1: { go: 'finding:jack-worn' }, r2: { go: 'finding:clock-missing' } },
          },
        },
      },
      stops: {
        title: 'Stops by itself',
        weights: { 'clock-missing': 5, 'joint-cracked': 4, 'jack-worn': 3, 'speaker-open': 1 },
      },
    },
  };
}

export function dunlinTree(): Tree {
  return treeOf(dunlinDocument());
}

function test(
  title: string,
  minutes: number,
  shell: string,
  results: readonly string[],
): TreeDocument['tests'][string] {
  return {
    title,
    ask: 'Look and listen.',
    instrument: 'eye',
    needs: { shell },
    minutes,
    results: Object.fromEntries(results.map((result, at) => [`r${String(at + 1)}`, { title: result }])),
  };
}

function finding(
  title: string,
  minutes: number,
  prove: string[],
  expects: Record<string, string>,
): TreeDocument['findings'][string] {
  return {
    title,
    because: 'So it is in this player.',
    remedy: {
      steps: ['Mend it.'],
      needs: { shell: 'open' },
      minutes,
      parts: [{ name: 'Part', price: 2 }],
      cautions: ['Wear eye protection while you solder.'],
    },
    prove,
    expects,
  };
}
