import type { ParseArgsOptionsConfig } from 'node:util';
import type { Outcome } from './outcome.ts';

/** What was written after the command's name. Repeatable options are lists. */
export interface Asked {
  readonly positionals: readonly string[];
  readonly values: Readonly<Record<string, string | boolean | readonly (string | boolean)[] | undefined>>;
}

/** A command of the command line; `--json` and `--help` are everybody's. */
export interface Command {
  readonly usage: string;
  readonly says: string;
  readonly options: ParseArgsOptionsConfig;
  run(asked: Asked): Promise<Outcome>;
}

/** The text of an option, if it was given. */
export function text(asked: Asked, name: string): string | undefined {
  const given = asked.values[name];
  return typeof given === 'string' ? given : undefined;
}

/** The texts of an option that may be given several times, in the order they were. */
export function texts(asked: Asked, name: string): readonly string[] {
  const given = asked.values[name];
  return Array.isArray(given) ? given.filter((one) => typeof one === 'string') : [];
}
