export { createLock, type Lock } from './lock.ts';
