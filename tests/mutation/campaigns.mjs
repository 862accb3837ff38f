/** @typedef {{ code: string[], but?: string[], judges: string[], without?: string[], warm?: boolean }} Campaign */

/** What pushes a coilover apart: it lies with the corner, and the tests of the coilover judge it. */
const FORCES = ['axial-force.ts', 'spring-stack.ts'];

/**
 * What is mutated, but for some files, and the tests that judge it, but for some; `warm` if `warm-runner.mjs` runs them.
 * @type {Record<string, Campaign>}
 */
export const campaigns = {
  numerics: { code: ['src/numerics'], judges: ['numerics'] },
  linkage: {
    code: ['src/linkage'],
    but: ['sensitivity.ts'],
    judges: ['linkage', 'corner/lengths.test.ts'],
    without: ['linkage/sensitivity', 'linkage/laws'],
  },
  statics: { code: ['src/statics'], judges: ['linkage/statics.test.ts', 'linkage/scissor-lift.test.ts'] },
  synthesis: { code: ['src/synthesis'], judges: ['synthesis'] },
  sensitivities: { code: ['src/linkage/sensitivity.ts'], judges: ['linkage/sensitivity.test.ts'] },
  corner: {
    code: ['src/corner'],
    but: FORCES,
    judges: ['corner', 'document'],
    without: ['corner/planegcs', 'document/json-schema'],
  },
  coilover: {
    code: ['src/coilover', ...FORCES.map((file) => `src/corner/${file}`)],
    judges: ['coilover'],
    warm: true,
  },
};
