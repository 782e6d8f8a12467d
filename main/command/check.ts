import { countOf } from '../../trees/document/index.ts';
import type { Command } from './command.ts';
import { problemJson, problemLines, wrongUse, type Outcome } from './outcome.ts';
import { checkFile, type CheckedFile } from './tree-file.ts';

/** `check FILE…`: every problem of each document, with its place and what to do. Status 1 if any has an error. */
export const check: Command = {
  usage: 'check FILE… [--json]',
  says: 'reads tree documents and lists every problem',
  options: {},
  run: async ({ positionals }) => {
    if (positionals.length === 0) return wrongUse('No file was named.', 'Write: check FILE…').outcome;
    const files: CheckedFile[] = [];
    for (const file of positionals) {
      const checked = checkFile(file);
      if (!checked.ok) return checked.outcome;
      files.push(checked.value);
    }
    return found(files);
  },
};

function found(files: readonly CheckedFile[]): Outcome {
  return {
    status: files.some(({ errors }) => errors.length > 0) ? 1 : 0,
    text: files.map(asText).join('\n'),
    json: {
      files: files.map(({ file, errors, warnings }) => ({
        file,
        errors: errors.map(problemJson),
        warnings: warnings.map(problemJson),
      })),
    },
  };
}

function asText({ file, errors, warnings }: CheckedFile): string {
  const count = `${file}: ${counted(countOf(errors), 'error')}, ${counted(countOf(warnings), 'warning')}`;
  return [count, problemLines([...errors, ...warnings])].filter((line) => line !== '').join('\n');
}

function counted(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? '' : 's'}`;
}
