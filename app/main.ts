import '@fontsource/atkinson-hyperlegible/latin-400.css';
import '@fontsource/atkinson-hyperlegible/latin-700.css';
import '@fontsource/atkinson-hyperlegible/latin-ext-400.css';
import '@fontsource/atkinson-hyperlegible/latin-ext-700.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-400.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-600.css';
import './styles/tokens.css';
import './styles/base.css';
import './styles/print.css';
import { mount } from 'svelte';
import { AREAS } from './areas.ts';
import { createClient } from './shell/connect.ts';
import { App } from './shell/index.ts';

const target = document.getElementById('app');
if (target === null) throw new Error('The page has no place for the app (an element with the id "app").');
mount(App, { target, props: { connect: createClient, areas: AREAS } });
