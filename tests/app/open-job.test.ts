import { beforeEach, describe, expect, it } from 'vitest';
import { shopKeeper } from '../../app/bench/job/job-keeper.ts';
import { OpenJob } from '../../app/bench/job/open-job.svelte.ts';
import { TreeShelf } from '../../app/bench/job/tree-shelf.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import type { JobEvent } from '../../trees/chart/index.ts';
import { expected, JOB_ID, standIn, TECHNICIAN, type StandIn } from './stand-in-client.ts';

const OPEN_SHELL: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const CLEAR: JobEvent = {
  kind: 'answer',
  test: 'supply-resistance',
  result: 'clear',
  reading: { value: 4700, typed: '4k7', accuracy: { percent: 1, constant: 0.3 } },
};

let main: StandIn;
let session: Session;
let open: OpenJob;

beforeEach(async () => {
  main = standIn();
  session = new Session(() => Promise.resolve(main.client));
  await session.open();
  session.workAs(TECHNICIAN.id);
  open = new OpenJob(JOB_ID, shopKeeper(session), new TreeShelf(session));
  await open.read();
});

describe('an open job', () => {
  it('stands at the first act of its path once it is read', () => {
    expect(open.failure).toBeNull();
    expect(open.standing?.act).toMatchObject({ kind: 'change', axis: 'shell' });
  });

  it('shows the next act only when the records have the event', async () => {
    const acting = open.act(OPEN_SHELL);
    expect(open.busy).toBe(true);
    expect(open.standing?.act.kind).toBe('change');
    expect(await acting).toBe(true);
    expect(open.busy).toBe(false);
    expect(open.standing?.act).toMatchObject({ kind: 'test', test: 'supply-resistance' });
    expect(main.job().events.map(({ event }) => event)).toEqual([OPEN_SHELL]);
  });

  it('takes no second act while the first is on its way', async () => {
    const first = open.act(OPEN_SHELL);
    expect(await open.act(OPEN_SHELL)).toBe(false);
    await first;
    expect(main.sent()).toHaveLength(1);
  });

  it('sends nothing that the chart refuses, and says why', async () => {
    expect(await open.act({ kind: 'close', outcome: 'fixed' })).toBe(false);
    expect(main.sent()).toEqual([]);
    expect(open.refusal?.message).not.toBe('');
    expect(open.refusal?.help).not.toBe('');
  });

  it('sends nothing while nobody is at work', async () => {
    session.workAs('');
    expect(await open.act(OPEN_SHELL)).toBe(false);
    expect(main.sent()).toEqual([]);
    expect(open.refusal?.code).toBe('nobody-at-work');
  });

  it('stays where it is when the records fail, and records the same event when tried again', async () => {
    main.fail(expected('DISK_FULL'));
    expect(await open.act(OPEN_SHELL)).toBe(false);
    expect(open.standing?.act.kind).toBe('change');
    expect(open.unsent).toMatchObject({
      event: OPEN_SHELL,
      trouble: { code: 'DISK_FULL', help: 'Do this.' },
    });
    expect(await open.again()).toBe(true);
    expect(open.unsent).toBeNull();
    expect(main.job().events.map(({ event }) => event)).toEqual([OPEN_SHELL]);
  });

  it('keeps the event when the main process is gone', async () => {
    main.fail(new TypeError('Failed to fetch'));
    expect(await open.act(OPEN_SHELL)).toBe(false);
    expect(open.unsent).toMatchObject({ event: OPEN_SHELL, trouble: { code: 'HOST_GONE' } });
  });

  it('reads the job again, and says so, when it has gone on somewhere else', async () => {
    main.alongside(OPEN_SHELL);
    expect(await open.act(OPEN_SHELL)).toBe(false);
    expect(open.news).not.toBe('');
    expect(open.unsent).toBeNull();
    expect(open.standing?.act).toMatchObject({ kind: 'test', test: 'supply-resistance' });
  });

  it('does again what was taken back', async () => {
    await open.act(OPEN_SHELL);
    await open.act(CLEAR);
    await open.act({ kind: 'take-back' });
    expect(open.standing?.job.answers).toEqual([]);
    expect(await open.redo()).toBe(true);
    expect(open.standing?.job.answers).toMatchObject([{ test: 'supply-resistance', result: 'clear' }]);
    expect(open.trail.again).toEqual([]);
  });

  it('holds a belief that sums to one and moves with the evidence', async () => {
    const sum = (): number => open.belief?.findings.reduce((total, one) => total + one.probability, 0) ?? 0;
    const of = (finding: string): number =>
      open.belief?.findings.find((one) => one.finding === finding)?.probability ?? 0;
    expect(sum()).toBeCloseTo(1, 9);
    const before = of('capacitor-short');
    await open.act(OPEN_SHELL);
    await open.act(CLEAR);
    expect(sum()).toBeCloseTo(1, 9);
    expect(of('capacitor-short')).toBeLessThan(before);
  });
});
