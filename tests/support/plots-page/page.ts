import '@fontsource/atkinson-hyperlegible/latin-400.css';
import '@fontsource/atkinson-hyperlegible/latin-700.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-400.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-600.css';
import '../../../app/styles/tokens.css';
import '../../../app/styles/base.css';
import '../../../app/styles/print.css';
import './page.css';
import { mount } from 'svelte';
import { svgText } from '../../../app/review/plots/svg-text.ts';
import { FIGURES } from './figures.ts';
import Page from './Page.svelte';

const name = location.search.slice(1);
const figures = FIGURES[name]?.();
const target = document.getElementById('plots');
if (target === null || figures === undefined) throw new Error('no such figures');
mount(Page, { target, props: { figures, told: (what: string) => console.log(what) } });

/** All plots of the page as their files would be, by title. */
function savedPlots(): readonly string[] {
  return [...document.querySelectorAll<SVGSVGElement>('svg[data-plot]')].map((svg) =>
    svgText(svg, {
      title: svg.closest('figure')?.querySelector('h3')?.textContent ?? '',
      caption: 'Drawn to be tried.',
      of: 'All closed jobs; as of 27 Nov 2026.',
    }),
  );
}

Object.assign(window, { savedPlots });
