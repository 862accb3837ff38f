/** @typedef {{ code: string, but?: string[], judges: string[], without?: string[], warm?: boolean }} Campaign */

/**
 * What is mutated, but for some files, and the tests that judge it, but for some; `warm` if `warm-runner.mjs` runs them.
 * @type {Record<string, Campaign>}
 */
export const campaigns = {
  numerics: { code: 'src/numerics', judges: ['numerics'] },
  linkage: {
    code: 'src/linkage',
    but: ['sensitivity.ts'],
    judges: ['linkage', 'corner/lengths.test.ts'],
    without: ['linkage/sensitivity', 'linkage/laws'],
  },
  statics: { code: 'src/statics', judges: ['linkage/statics.test.ts', 'linkage/scissor-lift.test.ts'] },
  synthesis: { code: 'src/synthesis', judges: ['synthesis'] },
  sensitivities: { code: 'src/linkage/sensitivity.ts', judges: ['linkage/sensitivity.test.ts'] },
  corner: {
    code: 'src/corner',
    judges: ['corner', 'document'],
    without: ['corner/planegcs', 'document/json-schema'],
  },
  coilover: { code: 'src/coilover', judges: ['coilover'], warm: true },
};
