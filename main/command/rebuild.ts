import { text, type Command } from './command.ts';
import { value, wrongUse, type Outcome } from './outcome.ts';
import { withRecords } from './shop.ts';

/** `rebuild --db FILE`: counts everything again from the events. Status 1 if any count had differed. */
export const rebuild: Command = {
  usage: 'rebuild --db FILE [--json]',
  says: 'counts again from the events, and says whether the counts had differed',
  options: { db: { type: 'string' } },
  run: async (asked) => {
    const file = text(asked, 'db');
    if (file === undefined || asked.positionals.length > 0) {
      return wrongUse('--db FILE is missing.', `Write: ohmward ${rebuild.usage}`).outcome;
    }
    const rebuilt = await withRecords(file, 'must-exist', (records) =>
      value(report(file, records.rebuild())),
    );
    return rebuilt.ok ? rebuilt.value : rebuilt.outcome;
  },
};

interface Rebuilt {
  readonly differed: readonly string[];
  readonly jobs: number;
  readonly halted: readonly { readonly jobId: string; readonly seq: number; readonly code: string }[];
}

function report(file: string, { differed, jobs, halted }: Rebuilt): Outcome {
  const same = differed.length === 0;
  const counts = same
    ? `${file}: counted ${jobs} jobs again; nothing had differed.`
    : `${file}: counted ${jobs} jobs again; these had differed and are right now: ${differed.join(', ')}.`;
  const stopped = halted.map(
    ({ jobId, seq, code }) =>
      `Job ${jobId} could be replayed up to event ${seq} only (${code}); its later events are kept.`,
  );
  return {
    status: same && halted.length === 0 ? 0 : 1,
    text: [counts, ...stopped].join('\n'),
    json: { file, jobs, differed: !same, tables: differed, halted },
  };
}
