import { fileURLToPath } from 'node:url';
import { ESLint } from 'eslint';
import { describe, expect, it } from 'vitest';

const top = fileURLToPath(new URL('../..', import.meta.url));
const eslint = new ESLint({
  cwd: top,
  overrideConfigFile: fileURLToPath(new URL('../support/eslint.config.js', import.meta.url)),
});

async function rulesBroken(filePath: string, code: string): Promise<readonly string[]> {
  const [result] = await eslint.lintText(code, { filePath: `${top}${filePath}` });
  return (result?.messages ?? []).map((message) => message.ruleId ?? message.message);
}

const PATHS = 'import-x/no-restricted-paths';

describe('the lint rule for rooms', () => {
  it.each([
    ['trees/belief/probe.ts', `import '../../main/contract/index.ts';`, PATHS],
    ['trees/belief/probe.ts', `import '../document/schema.ts';`, PATHS],
    ['trees/chart/probe.ts', `import 'node:fs';`, 'no-restricted-imports'],
    ['trees/chart/probe.ts', `export const now = Date.now();`, 'no-restricted-globals'],
    ['trees/chart/probe.ts', `export const luck = Math.random();`, 'no-restricted-properties'],
    ['main/services/probe.ts', `import 'better-sqlite3';`, 'no-restricted-imports'],
    ['main/services/probe.ts', `import '../contract/contract.ts';`, PATHS],
    ['main/loopback/probe.ts', `import 'electron';`, 'no-restricted-imports'],
    ['main/records/probe.ts', `import 'electron';`, 'no-restricted-imports'],
    ['app/bench/probe.ts', `import '../../main/services/index.ts';`, PATHS],
    ['app/bench/probe.ts', `import '../../main/contract/contract.ts';`, PATHS],
    ['app/bench/probe.ts', `import '../../trees/document/schema.ts';`, PATHS],
  ])('bars in %s: %s', async (file, code, rule) => {
    expect(await rulesBroken(file, code)).toContain(rule);
  });

  it.each([
    ['trees/belief/probe.ts', `import '../document/index.ts';`],
    ['main/services/probe.ts', `import '../contract/index.ts';`],
    ['main/services/probe.ts', `import '../../trees/document/index.ts';`],
    ['main/records/probe.ts', `import 'better-sqlite3';`],
    ['main/desktop/probe.ts', `import 'electron';`],
    ['app/bench/probe.ts', `import '../../main/contract/index.ts';`],
    ['app/bench/probe.ts', `import '../../trees/document/index.ts';`],
  ])('lets through in %s: %s', async (file, code) => {
    expect(await rulesBroken(file, code)).toEqual([]);
  });
});
