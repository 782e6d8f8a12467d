import type { z } from 'zod';
import { treeSchema, type Tree } from '../../trees/document/index.ts';

/** A tree document as written in a file: optional fields may be missing. Free to be changed by the test that made it. */
export type TreeDocument = z.input<typeof treeSchema>;

/**
 * A small document that is sound in every respect (no error, no warning): a power and a shell axis, an interlock,
 * a ratio band, an `otherwise`, and two symptoms of which one goes on in the other's path. A new copy each time.
 */
export function smallDocument(): TreeDocument {
  return {
    format: 'ohmward-tree/1',
    id: 'small',
    title: 'Small unit',
    unit: { family: 'Small unit', boards: ['A1'] },
    summary: 'A tree for tests.',
    cautions: [
      'Follow the maker’s instructions and local rules; where they differ from this tree, they win.',
    ],
    bench: bench(),
    interlocks: [
      {
        change: { power: 'on' },
        until: { 'supply-resistance': ['clear'] },
        because: 'A rail that reads as a wire must not get power.',
      },
    ],
    tests: tests(),
    findings: findings(),
    symptoms: symptoms(),
  };
}

/** {@link smallDocument} as the rooms get it. */
export function smallTree(): Tree {
  return treeOf(smallDocument());
}

/** The tree that a document is read as. Throws where the document is not of the right shape. */
export function treeOf(document: TreeDocument): Tree {
  return treeSchema.parse(document);
}

function bench(): TreeDocument['bench'] {
  return {
    power: {
      title: 'Power',
      start: 'off',
      states: { off: { title: 'Off, supply unplugged' }, on: { title: 'On, current limit set' } },
      changes: [
        { from: 'off', to: 'on', minutes: 0.4, say: 'Set the current limit, then switch the supply on.' },
        { from: 'on', to: 'off', minutes: 0.2, say: 'Switch the supply off.' },
      ],
    },
    shell: {
      title: 'Shell',
      start: 'closed',
      states: { closed: { title: 'Closed' }, open: { title: 'Open' } },
      changes: [
        { from: 'closed', to: 'open', minutes: 2, say: 'Take the six screws out and lift the back off.' },
        { from: 'open', to: 'closed', minutes: 1.5, say: 'Put the back on and the six screws in.' },
      ],
    },
  };
}

function tests(): TreeDocument['tests'] {
  return {
    'supply-resistance': {
      title: 'Supply to ground',
      ask: 'Measure from the supply pad to ground.',
      instrument: 'ohms',
      needs: { power: 'off', shell: 'open' },
      minutes: 0.5,
      reading: { unit: 'ohm' },
      results: {
        clear: { title: 'Clear', band: { from: 50 } },
        short: { title: 'Short', band: { to: 50 } },
      },
    },
    'rail-in': {
      title: '5 V at the converter',
      ask: 'Measure the 5 V rail at the converter.',
      instrument: 'dc-volts',
      needs: { power: 'on', shell: 'open' },
      minutes: 0.8,
      reliability: 0.98,
      reading: { unit: 'V' },
      results: {
        good: { title: 'In limits', band: { from: 4.75, to: 5.25 } },
        low: { title: 'Low', band: { to: 4.75 } },
        high: { title: 'High', band: { from: 5.25 } },
      },
    },
    'rail-far': {
      title: '5 V at the panel',
      ask: 'Measure the 5 V rail at the panel.',
      instrument: 'dc-volts',
      needs: { power: 'on', shell: 'open' },
      minutes: 0.8,
      reading: { unit: 'V' },
      results: {
        good: { title: 'No drop', band: { from: 0.96, of: 'rail-in' } },
        drop: { title: 'Drop', band: { to: 0.96, of: 'rail-in' } },
      },
    },
    border: {
      title: 'Picture',
      ask: 'Look at the picture.',
      instrument: 'eye',
      needs: { power: 'on' },
      minutes: 0.2,
      results: { whole: { title: 'Whole' }, partial: { title: 'Partial' }, none: { title: 'None' } },
    },
    tone: {
      title: 'Tone',
      ask: 'Listen to the speaker.',
      instrument: 'ear',
      needs: { power: 'on' },
      minutes: 0.3,
      results: { heard: { title: 'Heard' }, silent: { title: 'Silent' } },
    },
  };
}

function findings(): TreeDocument['findings'] {
  const expects = {
    'supply-resistance': 'clear',
    'rail-in': 'good',
    'rail-far': 'good',
    border: 'whole',
    tone: 'heard',
  };
  return {
    'capacitor-short': {
      ...finding('Input capacitor shorted', 8, ['supply-resistance', 'border']),
      expects: { 'supply-resistance': 'short' },
    },
    'converter-low': {
      ...finding('Converter low', 15, ['rail-in', 'border']),
      expects: { 'rail-in': 'low' },
    },
    'converter-high': {
      ...finding('Converter high', 15, ['rail-in', 'border']),
      expects: { 'rail-in': 'high' },
    },
    'joint-open': {
      ...finding('Rail joint open', 6, ['rail-far', 'border']),
      expects: { ...expects, 'rail-far': 'drop', border: 'none' },
    },
    'ribbon-loose': {
      ...finding('Ribbon half seated', 3, ['border']),
      expects: { ...expects, border: { whole: 0.1, partial: 0.7, none: 0.2 } },
      otherwise: 'symptom:dark-screen/look-again',
    },
    'panel-dead': { ...finding('Panel dead', 12, ['border']), expects: { ...expects, border: 'none' } },
    'speaker-open': { ...finding('Speaker open', 9, ['tone']), expects: { ...expects, tone: 'silent' } },
    'volume-down': {
      ...finding('Volume wheel at its end stop', 0.5, ['tone']),
      expects: { tone: { heard: 0.5, silent: 0.5 } },
    },
  };
}

function finding(title: string, minutes: number, prove: string[]): TreeDocument['findings'][string] {
  return {
    title,
    because: 'So it is in the small unit.',
    remedy: {
      steps: ['Mend it.'],
      needs: { power: 'off', shell: 'open' },
      minutes,
      parts: [{ name: 'Part', price: 1.5 }],
      disturbs: ['supply-resistance'],
    },
    prove,
  };
}

function symptoms(): TreeDocument['symptoms'] {
  return {
    'dark-screen': {
      title: 'Dark screen',
      first: 'short',
      steps: {
        short: {
          test: 'supply-resistance',
          then: { clear: { go: 'supply', weight: 9 }, short: { go: 'finding:capacitor-short', weight: 1 } },
        },
        supply: {
          test: 'rail-in',
          then: {
            good: { go: 'far', weight: 7 },
            low: { go: 'finding:converter-low', weight: 2 },
            high: { go: 'finding:converter-high', weight: 1 },
          },
        },
        far: {
          test: 'rail-far',
          then: { good: { go: 'look', weight: 3 }, drop: { go: 'finding:joint-open', weight: 1 } },
        },
        look: {
          test: 'border',
          then: {
            whole: { go: 'symptom:no-sound', weight: 1 },
            partial: { go: 'finding:ribbon-loose', weight: 4 },
            none: { go: 'finding:panel-dead', weight: 3 },
          },
        },
        'look-again': {
          test: 'rail-far',
          then: { good: { go: 'finding:panel-dead' }, drop: { go: 'finding:joint-open' } },
        },
      },
    },
    'no-sound': {
      title: 'No sound',
      first: 'listen',
      weights: { 'speaker-open': 3, 'volume-down': 2 },
      steps: {
        listen: {
          test: 'tone',
          then: {
            heard: { go: 'finding:volume-down', weight: 2 },
            silent: { go: 'finding:speaker-open', weight: 3 },
          },
        },
      },
    },
  };
}
