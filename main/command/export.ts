import { toScxml } from '../../trees/chart/index.ts';
import { text, type Asked, type Command } from './command.ts';
import { wrongUse, type Outcome } from './outcome.ts';
import { soundTree } from './tree-file.ts';
import { writtenWhole } from './write-whole.ts';

/** `export FILE --scxml OUT`: writes the chart of a tree as W3C SCXML 1.0. OUT is replaced whole, or left as it was. */
export const exportChart: Command = {
  usage: 'export FILE --scxml OUT [--json]',
  says: 'writes the chart of a tree as W3C SCXML 1.0',
  options: { scxml: { type: 'string' } },
  run: async (asked) => exported(asked),
};

function exported(asked: Asked): Outcome {
  const [file, ...more] = asked.positionals;
  const out = text(asked, 'scxml');
  if (file === undefined || more.length > 0 || out === undefined) {
    return wrongUse('One FILE and --scxml OUT must be named.', `Write: ohmward ${exportChart.usage}`).outcome;
  }
  const tree = soundTree(file);
  if (!tree.ok) return tree.outcome;
  const chart = toScxml(tree.value);
  const written = writtenWhole(file, out, chart);
  if (!written.ok) return written.outcome;
  return { status: 0, text: `Wrote ${out}.`, json: { file, scxml: out, bytes: Buffer.byteLength(chart) } };
}
