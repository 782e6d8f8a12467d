import fc from 'fast-check';

/**
 * What every property draws from unless OHMWARD_TEST_SEED says otherwise: a failure of `npm test` is then of the change it
 * stands on, and comes again. New cases are what `npm test -- --seed fresh` is for.
 */
export const SEED = 20_261_127;

const asked = process.env['OHMWARD_TEST_SEED'];
fc.configureGlobal({ seed: asked === undefined ? SEED : Number(asked) });
