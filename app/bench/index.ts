export { default as BenchArea } from './BenchArea.svelte';
export { BENCH_KEYS } from './bench-keys.ts';
