import '@fontsource/atkinson-hyperlegible/latin-400.css';
import '@fontsource/atkinson-hyperlegible/latin-700.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-400.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-600.css';
import '../../../app/styles/tokens.css';
import '../../../app/styles/base.css';
import './page.css';
import { mount } from 'svelte';
import kw1 from '../../../trees/library/kw1-panel.tree.json';
import { treeSchema, type Tree } from '../../../trees/document/index.ts';
import { largeTree } from '../large-tree.ts';
import { framesOf } from './frames.ts';
import Page from './Page.svelte';

/** Trees by the name in the page's address. */
const TREES: Readonly<Record<string, () => Tree>> = {
  'kw1-panel': () => treeSchema.parse(kw1),
  large: largeTree,
};

const [name = '', symptom = ''] = location.search.slice(1).split('/');
const target = document.getElementById('drawing');
const tree = TREES[name]?.();
if (target === null || tree === undefined) throw new Error('no such tree');
const start = performance.now();
mount(Page, { target, props: { tree, symptom, told: (what: string) => console.log(what) } });
const seen = setInterval(() => {
  if (document.querySelector('[data-spot]') === null) return;
  clearInterval(seen);
  document.body.dataset['opened'] = String(Math.round(performance.now() - start));
}, 5);

Object.assign(window, { framesOf });
