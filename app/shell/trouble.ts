import { ORPCError } from '@orpc/client';

/** An expected failure as the screens show it: stable code, what is wrong, where, and the way out. */
export interface Trouble {
  readonly code: string;
  readonly message: string;
  readonly where: string;
  readonly help: string;
}

/** What came of asking the main process for something. */
export type Asked<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/** Longest wait for an answer. A full fsync on a tired disk takes a second or two; the main process that says nothing for this long is gone. */
export const PATIENCE_MILLISECONDS = 20_000;

/** Asks, and gives an expected failure back as a value. `ask` gets the signal that ends the wait. */
export async function asked<T>(
  ask: (signal: AbortSignal) => Promise<T>,
  patience = PATIENCE_MILLISECONDS,
): Promise<Asked<T>> {
  const waiting = new AbortController();
  const gone = new Promise<never>((_, reject) => {
    waiting.signal.addEventListener('abort', () => reject(new Error('No answer.')), { once: true });
  });
  const timer = setTimeout(() => waiting.abort(), patience);
  try {
    return { ok: true, value: await Promise.race([ask(waiting.signal), gone]) };
  } catch (failure) {
    return { ok: false, trouble: troubleOf(failure) };
  } finally {
    clearTimeout(timer);
  }
}

/** The contract's failures keep their code, message and help; anything else means that the main process cannot be reached. */
export function troubleOf(failure: unknown): Trouble {
  if (failure instanceof ORPCError && isTroubleData(failure.data)) {
    const { where, help } = failure.data;
    return { code: failure.code, message: failure.message, where, help };
  }
  if (failure instanceof ORPCError && [401, 403].includes(failure.status)) return STARTED_AGAIN;
  if (failure instanceof ORPCError && failure.status >= 400 && failure.status < 500) {
    return {
      code: failure.code,
      message: 'Ohmward did not take this.',
      where: failure.message,
      help: 'Read the page again (F5). If it stays so, stop Ohmward and start it again.',
    };
  }
  return {
    code: 'HOST_GONE',
    message: 'Ohmward is not answering.',
    where: 'between this window and Ohmward’s records',
    help: 'What you typed is still here, and all that was recorded is kept. Choose “Try again”; if Ohmward has stopped, start it again and open the job in the window that comes.',
  };
}

/** Each start of the loopback host admits only the window that came with it. */
const STARTED_AGAIN: Trouble = {
  code: 'STARTED_AGAIN',
  message: 'Ohmward was started again since this window was opened, and takes nothing from it any more.',
  where: 'between this window and Ohmward’s records',
  help: 'Go on in the window that came with that start: all that was recorded is there. Note down what you typed here, then close this window.',
};

function isTroubleData(data: unknown): data is { where: string; help: string } {
  return typeof data === 'object' && data !== null && 'where' in data && 'help' in data;
}
