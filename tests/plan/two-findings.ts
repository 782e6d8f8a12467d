import type { TreeDocument } from '../support/trees.ts';

/**
 * A tree small enough to work by hand: a part that fails three times in four, a joint once. `look` shows the part's
 * failing half of the time, `volts` (power on) always. Tests are certain, nothing is unlisted, remedies mend four in five.
 */
export function twoFindings(): TreeDocument {
  return {
    format: 'ohmward-tree/1',
    id: 'two',
    title: 'Two findings',
    unit: { family: 'Two findings' },
    defaults: { reliability: 1, unlisted: 0, fixRate: 0.8, escalate: 60 },
    bench: {
      power: {
        title: 'Power',
        start: 'off',
        states: { off: { title: 'Off' }, on: { title: 'On' } },
        changes: [
          { from: 'off', to: 'on', minutes: 1, say: 'Switch it on.' },
          { from: 'on', to: 'off', minutes: 0.5, say: 'Switch it off.' },
        ],
      },
    },
    tests: {
      look: {
        title: 'Look',
        ask: 'Look at the board.',
        instrument: 'eye',
        minutes: 2,
        results: { good: { title: 'Good' }, burnt: { title: 'Burnt' } },
      },
      volts: {
        title: 'Volts',
        ask: 'Look at the lamp.',
        instrument: 'eye',
        needs: { power: 'on' },
        minutes: 3,
        results: { there: { title: 'There' }, none: { title: 'None' } },
      },
    },
    findings: {
      part: {
        title: 'Part',
        because: 'It fails.',
        remedy: {
          steps: ['Replace it.'],
          needs: { power: 'off' },
          minutes: 5,
          parts: [{ name: 'Part', price: 10 }],
        },
        prove: ['volts'],
        expects: { look: { good: 0.5, burnt: 0.5 }, volts: 'none' },
      },
      joint: {
        title: 'Joint',
        because: 'It cracks.',
        remedy: { steps: ['Solder it.'], minutes: 7 },
        prove: ['look'],
        expects: { look: 'good', volts: 'there' },
      },
    },
    symptoms: {
      dead: {
        title: 'Dead',
        first: 'first',
        weights: { part: 3, joint: 1 },
        steps: {
          first: { test: 'look', then: { good: { go: 'second' }, burnt: { go: 'finding:part' } } },
          second: { test: 'volts', then: { there: { go: 'finding:joint' }, none: { go: 'finding:part' } } },
        },
      },
    },
  };
}
