export { provideSession, Session, useSession, type Client, type ReadyShop } from './session.svelte.ts';
export type { Asked, Trouble } from './trouble.ts';
