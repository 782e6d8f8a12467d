import { beforeEach, describe, expect, it } from 'vitest';
import { memoryKeeper, TRIED } from '../../app/editor/try/memory-keeper.ts';
import { TryDesk } from '../../app/editor/try/try-desk.svelte.ts';
import { NO_HISTORY } from '../../trees/belief/index.ts';
import { compileChart, type JobEvent } from '../../trees/chart/index.ts';
import { smallDocument, smallTree } from '../support/trees.ts';

const OPEN_SHELL: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const SILENT: JobEvent = { kind: 'answer', test: 'tone', result: 'silent' };
const TEXT = JSON.stringify(smallDocument());

let asked: string[];

function tryDesk(text = TEXT, history = NO_HISTORY): TryDesk {
  return new TryDesk(
    text,
    () => history,
    async (file) => {
      asked.push(file);
      return { ok: true, value: `data:image/svg+xml;base64,${file}` };
    },
  );
}

beforeEach(() => {
  asked = [];
});

describe('a draft that is tried', () => {
  it('is walked by the bench’s own job, from its symptom’s first act', async () => {
    const desk = tryDesk();
    await desk.start('dark-screen');
    expect(desk.open?.failure).toBeNull();
    expect(desk.open?.isRecorded).toBe(false);
    expect(desk.open?.standing?.act).toMatchObject({ kind: 'change', axis: 'shell' });
    expect(await desk.open?.act(OPEN_SHELL)).toBe(true);
    expect(desk.open?.standing?.act).toMatchObject({ kind: 'test', test: 'supply-resistance' });
  });

  it('needs nobody at work, as nothing is recorded in a name', async () => {
    const desk = tryDesk();
    await desk.start('dark-screen');
    await desk.open?.act(OPEN_SHELL);
    expect(desk.open?.refusal).toBeNull();
  });

  it('takes an answer back for another one', async () => {
    const desk = tryDesk();
    await desk.start('dark-screen');
    await desk.open?.act(OPEN_SHELL);
    expect(await desk.open?.act({ kind: 'take-back' })).toBe(true);
    expect(desk.open?.standing?.act).toMatchObject({ kind: 'change', axis: 'shell' });
    expect(desk.open?.trail.again).toEqual([OPEN_SHELL]);
  });

  it('forgets all that was done when it is started over, and keeps the symptom', async () => {
    const desk = tryDesk();
    await desk.start('no-sound');
    const first = desk.open;
    await first?.act(OPEN_SHELL);
    await desk.startOver();
    expect(desk.open).not.toBe(first);
    expect(desk.symptom).toBe('no-sound');
    expect(desk.open?.job?.events).toEqual([]);
  });

  it('believes what the shop’s history says of the draft', async () => {
    const belief = async (history = NO_HISTORY) => {
      const desk = tryDesk(TEXT, history);
      await desk.start('no-sound');
      return desk.open?.belief?.findings.find(({ finding }) => finding === 'volume-down');
    };
    const seen = await belief({ ...NO_HISTORY, findings: { 'no-sound': { 'volume-down': 40 } } });
    expect(seen?.jobs).toBe(40);
    expect(seen?.probability ?? 0).toBeGreaterThan((await belief())?.probability ?? 1);
  });

  it('has its pictures from whoever shows it, each asked for once', async () => {
    const desk = tryDesk();
    await desk.start('dark-screen');
    const shelf = desk.open?.shelf;
    const once = await shelf?.picture('any', 'board.svg');
    expect(await shelf?.picture('any', 'board.svg')).toEqual(once);
    expect(once).toMatchObject({ ok: true, value: expect.stringContaining('board.svg') });
    expect(asked).toEqual(['board.svg']);
  });

  it('cannot be walked while there are errors in it, and says each with its place', async () => {
    const document = smallDocument();
    const tone = document.tests['tone'];
    if (tone !== undefined) tone.title = '';
    const desk = tryDesk(JSON.stringify(document));
    await desk.start('no-sound');
    expect(desk.open).toBeNull();
    expect(desk.draft).toBeNull();
    expect(desk.errors).toMatchObject([{ severity: 'error', at: '/tests/tone/title' }]);
  });

  it('can be walked with warnings in it', () => {
    const document = smallDocument();
    document.interlocks = [];
    const desk = tryDesk(JSON.stringify(document));
    expect(desk.errors).toEqual([]);
    expect(desk.symptoms.map(({ id }) => id)).toEqual(['dark-screen', 'no-sound']);
  });
});

describe('what keeps a tried job', () => {
  const keep = (keeper: ReturnType<typeof memoryKeeper>, seq: number, event: JobEvent) =>
    keeper.append({ jobId: TRIED, seq, technicianId: '', event });
  let keeper: ReturnType<typeof memoryKeeper>;

  beforeEach(() => {
    keeper = memoryKeeper(compileChart(smallTree()), 'no-sound', () => '2026-03-02T09:00:00.000Z');
  });

  it('makes each event on a chart of its own, and takes none that this refuses', async () => {
    expect(await keep(keeper, 0, SILENT)).toMatchObject({ ok: false, trouble: { code: 'EVENT_REFUSED' } });
    expect(await keep(keeper, 0, OPEN_SHELL)).toMatchObject({
      ok: true,
      value: { seq: 0, event: OPEN_SHELL },
    });
    const job = await keeper.get(TRIED);
    expect(job.ok && job.value.events.map(({ event }) => event)).toEqual([OPEN_SHELL]);
  });

  it('takes no event for another place than the next', async () => {
    expect(await keep(keeper, 1, OPEN_SHELL)).toMatchObject({
      ok: false,
      trouble: { code: 'STALE_SEQUENCE' },
    });
  });
});
