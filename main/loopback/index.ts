export { findBrowser, openBrowser, type Browsing, type Machine } from './browser.ts';
export { SECURITY_HEADERS } from './headers.ts';
export { startLoopbackHost, type HostOptions, type LoopbackHost } from './host.ts';
export type { Mounted } from './mounted.ts';
export { readPage, type Page } from './page.ts';
export { isExpected } from './questions.ts';
