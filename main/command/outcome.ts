import type { Problem } from '../../trees/document/index.ts';

/** What a command found, for people (`text`) and for programs (`json`). */
export interface Outcome {
  /** 0 all is well, 1 problems were found, 2 the command was asked in a wrong way. */
  readonly status: 0 | 1 | 2;
  readonly text: string;
  readonly json: unknown;
}

/** A value, or the outcome with which the command ends instead. */
export type Or<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly outcome: Outcome };

export function value<T>(value: T): Or<T> {
  return { ok: true, value };
}

/** The command was asked in a wrong way: what is wrong, and what to write instead. */
export function wrongUse(message: string, help: string): { readonly ok: false; readonly outcome: Outcome } {
  return failure(2, 'WRONG_USE', message, help);
}

/** The command was asked rightly but cannot be carried out: a stable code, what and where, and what to do. */
export function trouble(
  code: string,
  message: string,
  help: string,
): { readonly ok: false; readonly outcome: Outcome } {
  return failure(1, code, message, help);
}

function failure(
  status: 1 | 2,
  code: string,
  message: string,
  help: string,
): { readonly ok: false; readonly outcome: Outcome } {
  return {
    ok: false,
    outcome: { status, text: `${message}\n${help}`, json: { error: { code, message, help } } },
  };
}

/** One line a problem: severity, rule, place, what is wrong and what to do. */
export function problemLines(problems: readonly Problem[]): string {
  return problems
    .map(({ severity, rule, at, message, help }) => `${severity} ${rule} at ${at || '/'}: ${message} ${help}`)
    .join('\n');
}

/** A problem as programs read it; its severity is the list it stands in. */
export function problemJson({ rule, at, message, help }: Problem) {
  return { rule, at, message, help };
}
