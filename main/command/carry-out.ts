import { parseArgs } from 'node:util';
import { belief } from './belief.ts';
import { check } from './check.ts';
import type { Asked, Command } from './command.ts';
import { demo } from './demo.ts';
import { evaluate } from './evaluate.ts';
import { exportChart } from './export.ts';
import { value, wrongUse, type Or, type Outcome } from './outcome.ts';
import { plan } from './plan.ts';
import { propose } from './propose.ts';
import { rebuild } from './rebuild.ts';
import { review } from './review.ts';
import { walk } from './walk.ts';

const COMMANDS: ReadonlyMap<string, Command> = new Map([
  ['check', check],
  ['belief', belief],
  ['walk', walk],
  ['plan', plan],
  ['evaluate', evaluate],
  ['propose', propose],
  ['export', exportChart],
  ['demo', demo],
  ['rebuild', rebuild],
  ['review', review],
]);

const EVERYBODYS = { json: { type: 'boolean' }, help: { type: 'boolean', short: 'h' } } as const;

/** Carries out one command line, `name` and what is written after it; everything that can be expected is in the outcome. */
export async function carryOut(argv: readonly string[]): Promise<Outcome> {
  const [name = '', ...rest] = argv[0] === '--json' ? [...argv.slice(1), '--json'] : argv;
  if (name === '--json') return carryOut([]);
  if (name === '--help' || name === '-h' || name === 'help')
    return { status: 0, text: overview(), json: overview() };
  const command = COMMANDS.get(name);
  if (command === undefined) {
    return wrongUse(name === '' ? 'No command was named.' : `There is no command "${name}".`, overview())
      .outcome;
  }
  const asked = parse(command, rest);
  if (!asked.ok) return asked.outcome;
  const usage = `ohmward ${command.usage}`;
  if (asked.value.values['help'] === true)
    return { status: 0, text: `${usage}\n${command.says}`, json: { usage } };
  return command.run(asked.value);
}

function parse(command: Command, args: readonly string[]): Or<Asked> {
  try {
    const options = { ...command.options, ...EVERYBODYS };
    return value(parseArgs({ args: [...args], options, allowPositionals: true, strict: true }));
  } catch (cause) {
    const message = cause instanceof Error ? cause.message : String(cause);
    return wrongUse(message, `Write: ohmward ${command.usage}`);
  }
}

function overview(): string {
  const lines = [...COMMANDS.values()].map(({ usage, says }) => `  ${usage}\n      ${says}`);
  return ['Commands:', ...lines, 'Exit status: 0 ok, 1 problems found, 2 wrong use.'].join('\n');
}
