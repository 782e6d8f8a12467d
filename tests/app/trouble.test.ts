import { ORPCError } from '@orpc/client';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { asked, PATIENCE_MILLISECONDS, troubleOf } from '../../app/shell/trouble.ts';
import { expected } from './stand-in-client.ts';

afterEach(() => {
  vi.useRealTimers();
});

describe('trouble', () => {
  it('keeps the code, place and way out of a failure of the contract', () => {
    expect(troubleOf(expected('READ_ONLY'))).toEqual({
      code: 'READ_ONLY',
      message: 'It is READ_ONLY.',
      where: 'the records',
      help: 'Do this.',
    });
  });

  it('takes any other failure as a main process that cannot be reached', () => {
    expect(troubleOf(new TypeError('Failed to fetch')).code).toBe('HOST_GONE');
  });

  it('tells a request that was not taken from a main process that is gone', () => {
    expect(troubleOf(new ORPCError('BAD_REQUEST', { message: 'Input validation failed' })).code).toBe(
      'BAD_REQUEST',
    );
  });

  it('says of a window that is not admitted that Ohmward was started again, and where to go on', () => {
    const { code, help } = troubleOf(new ORPCError('FORBIDDEN', { message: 'Forbidden' }));
    expect(code).toBe('STARTED_AGAIN');
    expect(help).toContain('Go on in the window that came with that start');
  });

  it('gives up on an answer that does not come', async () => {
    vi.useFakeTimers();
    const asking = asked(() => new Promise<never>(() => undefined));
    await vi.advanceTimersByTimeAsync(PATIENCE_MILLISECONDS);
    expect(await asking).toMatchObject({ ok: false, trouble: { code: 'HOST_GONE' } });
  });
});
