import { fileURLToPath } from 'node:url';
import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import { importX } from 'eslint-plugin-import-x';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';

const top = fileURLToPath(new URL('../..', import.meta.url));

/** Rooms whose folders each speak through their index.ts and nothing else. */
const ROOMS = {
  trees: ['document', 'chart', 'belief', 'plan', 'edit', 'limits', 'replay', 'statistics', 'review'],
  main: ['contract', 'services', 'records', 'desktop', 'loopback'],
};

const between = [
  { target: './trees', from: ['./main', './app', './tests'], message: 'trees depends on nothing.' },
  { target: './main', from: ['./app', './tests'], message: 'main depends on trees only.' },
  {
    target: './app',
    from: './main',
    except: ['./contract'],
    message: 'app reaches main through its contract only.',
  },
  { target: './app', from: './tests' },
];

const pastTheIndex = Object.entries(ROOMS).flatMap(([area, rooms]) =>
  rooms.map((room) => ({
    target: [`./!(${area})/**`, `./${area}/!(${room})/**`],
    from: `./${area}/${room}`,
    except: ['./index.ts'],
    message: `Import from ${area}/${room}/index.ts.`,
  })),
);

const only = (name, room) => ({ name, message: `Only ${room} imports ${name}.` });

export default ts.config(
  { ignores: ['out/**', 'node_modules/**', 'tests/output/**', '**/*.d.ts'] },
  js.configs.recommended,
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  prettier,
  ...svelte.configs.prettier,
  {
    plugins: { 'import-x': importX },
    settings: { 'import-x/resolver': { node: { extensions: ['.ts', '.js', '.svelte', '.json'] } } },
    languageOptions: { globals: globals.es2024 },
    rules: {
      'import-x/no-restricted-paths': ['error', { basePath: top, zones: between }],
      'no-restricted-imports': [
        'error',
        { paths: [only('electron', 'main/desktop'), only('better-sqlite3', 'main/records')] },
      ],
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      eqeqeq: 'error',
      'no-console': 'error',
    },
  },
  {
    files: ['trees/**', 'main/**', 'app/**'],
    rules: {
      'import-x/no-restricted-paths': ['error', { basePath: top, zones: [...between, ...pastTheIndex] }],
    },
  },
  {
    files: ['trees/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        { patterns: [{ regex: '^node:', message: 'trees is pure.' }], paths: ['electron', 'better-sqlite3'] },
      ],
      'no-restricted-globals': [
        'error',
        'Date',
        'performance',
        'crypto',
        'setTimeout',
        'setInterval',
        'fetch',
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Pass randomness in.' },
      ],
    },
  },
  { files: ['main/**/*.ts'], languageOptions: { globals: globals.node } },
  {
    files: ['main/desktop/**'],
    rules: { 'no-restricted-imports': ['error', { paths: [only('better-sqlite3', 'main/records')] }] },
  },
  {
    files: ['main/records/**'],
    rules: { 'no-restricted-imports': ['error', { paths: [only('electron', 'main/desktop')] }] },
  },
  { files: ['main/command/**', 'tests/**'], rules: { 'no-console': 'off' } },
  {
    files: ['tests/**'],
    languageOptions: { globals: globals.node },
    rules: { 'no-restricted-imports': 'off', 'no-empty-pattern': 'off' },
  },
  { files: ['app/**'], languageOptions: { globals: globals.browser } },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, extraFileExtensions: ['.svelte'] } },
  },
);
