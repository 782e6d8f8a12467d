import { describe, expect, it } from 'vitest';
import { checkTree, readAndCheck } from '../../trees/document/index.ts';
import { smallDocument, smallTree } from '../support/trees.ts';
import { axisOf, findingOf, problemsAfter, stepOf, testOf } from './parts.ts';

describe('the checker', () => {
  it('finds nothing wrong with the small tree', () => {
    expect(checkTree(smallTree())).toEqual([]);
  });

  it('reports all errors of a document at once', () => {
    const problems = problemsAfter((d) => {
      stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'listen' };
      axisOf(d, 'shell').start = 'ajar';
      testOf(d, 'tone').needs = { lid: 'open' };
    });
    expect(problems.map(({ rule }) => rule).toSorted()).toEqual(['loop', 'unknown-axis', 'unknown-state']);
  });

  it('refuses a tree with more findings and steps than can be reckoned with', () => {
    const problems = problemsAfter((d) => {
      const finding = findingOf(d, 'panel-dead');
      for (let place = 0; place < 4000; place += 1) {
        d.findings[`finding-${String(place)}`] = finding;
        d.tests[`test-${String(place)}`] = testOf(d, 'tone');
      }
    });
    expect(problems.map(({ rule, at }) => [rule, at])).toEqual([['too-large-to-reckon', '']]);
  });

  it('gives a tree out of a file only without errors, and keeps warnings beside it', () => {
    const document = smallDocument();
    findingOf(document, 'panel-dead').prove = [];
    const warned = readAndCheck(JSON.stringify(document));
    expect(warned.tree?.id).toBe('small');
    expect(warned.errors).toEqual([]);
    expect(warned.warnings.map(({ rule }) => rule)).toEqual(['missing-proof']);

    stepOf(document, 'no-sound', 'listen').then['heard'] = { go: 'listen' };
    const broken = readAndCheck(JSON.stringify(document));
    expect(broken.tree).toBeNull();
    expect(broken.errors.map(({ rule }) => rule)).toEqual(['loop']);
  });

  it('holds its warnings about the whole tree back while there are errors they could be echoes of', () => {
    const problems = problemsAfter((d) => {
      d.findings['ribbon-torn'] = findingOf(d, 'panel-dead');
      stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'finding:ribbon-tron' };
    });
    expect(problems.map(({ rule }) => rule)).toEqual(['unknown-finding']);
  });
});
