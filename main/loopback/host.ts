import { createHash } from 'node:crypto';
import { claimInstance } from './instance.ts';
import type { Mounted } from './mounted.ts';
import type { Page } from './page.ts';
import { createQuestions } from './questions.ts';
import { addressOf, listen } from './server.ts';
import { secret } from './tokens.ts';

export interface HostOptions {
  /** Says which host has the database; lies beside it. */
  readonly instanceFile: string;
  readonly page: Page;
  /** Called only once this host has the database. */
  readonly openServices: () => Promise<Mounted>;
  /** Milliseconds, never going back. */
  readonly now: () => number;
  /** Gets what was a bug and not an expected failure. */
  readonly report: (error: unknown) => void;
}

export type LoopbackHost =
  | {
      readonly kind: 'started';
      /** A new address that lets one browser in, once. */
      readonly freshAddress: () => string;
      /** Takes no more requests, ends the services (which makes the backup on quit) and gives the database free. */
      readonly close: () => Promise<void>;
    }
  /** The database was open in a host already; `address` lets one browser into that one, once. */
  | { readonly kind: 'found'; readonly address: string };

/** Starts the browser host for a database, or finds the one that has it. */
export async function startLoopbackHost(options: HostOptions): Promise<LoopbackHost> {
  const services = Promise.withResolvers<Mounted>();
  const instanceSecret = secret();
  const { page, now, report } = options;
  const answerQuestion = createQuestions(services.promise, report);
  const preferredPort = portFor(options.instanceFile);
  const server = await listen({ page, answerQuestion, instanceSecret, now, report, preferredPort });
  const claim = await claimInstance(options.instanceFile, {
    pid: process.pid,
    port: server.port,
    secret: instanceSecret,
  });
  if (claim.kind === 'found') {
    await server.close();
    return { kind: 'found', address: addressOf(claim.port, claim.token) };
  }
  try {
    services.resolve(await options.openServices());
  } catch (error) {
    services.reject(error);
    claim.release();
    await server.close();
    throw error;
  }
  const close = async (): Promise<void> => {
    await server.close();
    await (await services.promise).close();
    claim.release();
  };
  return { kind: 'started', freshAddress: server.freshAddress, close };
}

/**
 * A port of the dynamic range (RFC 6335, section 6) that stays the same for a database: what the browser remembers for the
 * app (technician at work, theme, jobs in front) hangs on host and port.
 */
function portFor(instanceFile: string): number {
  const [first = 0, second = 0] = createHash('sha256').update(instanceFile).digest();
  return 49_152 + ((first * 256 + second) % 16_384);
}
